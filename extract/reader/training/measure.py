"""What the network gets right by itself, before any search or rule: for choosing among runs."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np
import torch

from extract.reader.labels import FIGURES
from extract.reader.training.shows import IN_NONE, TEASE, Show, units

if TYPE_CHECKING:
    from tokenizers import Tokenizer

    from extract.reader.training.network import ReaderNet


@torch.no_grad()
def figures(model: ReaderNet, shows: Sequence[Show], tokenizer: Tokenizer) -> str:
    """Roles and dishes by words, and the F1 of tags and pairs."""
    from extract.reader.training.train import pack

    device = model.role.weight.device.type
    count: Counter[str] = Counter()
    for show in shows:
        owner = units(show.words)
        batch = pack([show], [owner], tokenizer, device, None)
        out = model.read(model.words(batch), batch.unit_of, batch.unit_counts)
        role = out.role.argmax(1).cpu().numpy()
        count["role"] += int((role == show.role).sum())
        count["words"] += len(role)
        slots = show.slots()
        dish = out.dish.argmax(1).cpu().numpy()[owner]
        judged = np.isin(show.role, list(IN_NONE - {0})) | np.isin(show.role, [2, 3, 4, 5, 6])
        dish = np.where(np.isin(role, list(IN_NONE | {TEASE})), 0, dish)
        count["cut"] += int(((dish == slots) & judged).sum())
        count["judged"] += int(judged.sum())
        found = sum(1 for k, n in Counter(dish.tolist()).items() if k and n >= 30)
        count["dishes"] += found == len(set(slots[slots > 0].tolist()))
        tally(count, "food", spans(out.things.argmax(1).cpu().numpy(), 1, 2), spans(show.things, 1, 2))
        figure = out.figures.argmax(1).cpu().numpy()
        for name in FIGURES[1:]:
            k = FIGURES.index(name)
            kind = name.split()[0] if not name.startswith("share") else "share"
            tally(count, kind, spans(figure, k, k), spans(show.figures, k, k), lenient=True)
        title = out.title.argmax(1).cpu().numpy()
        tally(count, "title", spans(title, 1, 2), spans(show.title, 1, 2), lenient=True)
        parting(out.line[:, 1:].argmax(1).cpu().numpy(), show, count)
        pairs(model, out.pair, show, count)
    f1 = lambda k: 200 * count[k, "hit"] / max(1, count[k, "made"] + count[k, "gold"])
    kinds = ("food", "amount", "time", "heat", "share", "yield", "batch", "title")
    return (
        f"roles {100 * count['role'] / count['words']:.1f} cut {100 * count['cut'] / count['judged']:.1f} "
        f"dishes {100 * count['dishes'] / len(shows):.0f} pair {100 * count['pair'] / max(1, count['pairs']):.1f} "
        f"part {100 * count['part'] / max(1, count['parts']):.1f} of {100 * count['of'] / max(1, count['ofs']):.1f} "
        f"parting {100 * count['parting'] / max(1, count['partings']):.1f} "
        + " ".join(f"{k} {f1(k):.1f}" for k in kinds)
    )


def parting(found: np.ndarray, show: Show, count: Counter[str]) -> None:
    """Count the lines whose place in a part is right: none, a new one, the one before."""
    for line in show.lines:
        count["parting"] += int(found[line["food"][0]]) == line["parting"]
        count["partings"] += 1


def spans(tags: np.ndarray, first: int, rest: int) -> list[tuple[int, int]]:
    """The runs of a tag."""
    found: list[tuple[int, int]] = []
    for i, tag in enumerate(tags.tolist()):
        if tag == first and not (first == rest and found and found[-1][1] == i):
            found.append((i, i + 1))
        elif tag == rest and found and found[-1][1] == i:
            found[-1] = (found[-1][0], i + 1)
    return found


def tally(
    count: Counter[Any],
    name: str,
    made: list[tuple[int, int]],
    gold: list[tuple[int, int]],
    *,
    lenient: bool = False,
) -> None:
    """Count spans that agree: by their last word, or by any shared word."""
    if lenient:
        places = {i for span in gold for i in range(*span)}
        hit = sum(any(i in places for i in range(*span)) for span in made)
    else:
        hit = len({span[1] for span in made} & {span[1] for span in gold})
    count[name, "hit"] += min(hit, len(gold))
    count[name, "made"] += len(made)
    count[name, "gold"] += len(gold)


def pairs(model: ReaderNet, pair: torch.Tensor, show: Show, count: Counter[Any]) -> None:
    """How often the right amount, part and made thing come first, where the food or share is known."""
    cand = np.flatnonzero(show.candidates)
    letters = np.array(show.dish)
    lines = [line for line in show.lines if line["amount"] != -2]
    if lines and len(cand):
        scores = (
            model.amount_scores(pair, np.array([line["food"][1] - 1 for line in lines]), cand).cpu().numpy()
        )
        for line, row in zip(lines, scores, strict=True):
            far = np.abs(cand - line["food"][1]) > 80
            best = int(np.where(np.concatenate([[False], far]), -1e4, row).argmax())
            amount = line["amount"]
            count["pair"] += (
                best == 0 if amount == -1 else best > 0 and amount[0] <= cand[best - 1] < amount[1]
            )
            count["pairs"] += 1
    for line in show.lines:
        name(model, pair, count, letters, line["part"], line["food"][1] - 1, line["dish"], "part")
    for share in show.shares:
        name(model, pair, count, letters, share["of"], share["at"], share["dish"], "of")


def name(
    model: ReaderNet,
    pair: torch.Tensor,
    count: Counter[Any],
    letters: np.ndarray,
    part: Any,
    at: int,
    dish: str,
    kind: str,
) -> None:
    if part == -2:
        return
    places = np.flatnonzero(letters == dish)
    best = int(model.name_scores(pair, np.array([at]), places, share=kind == "of")[0].argmax())
    count[kind] += best == 0 if part == -1 else best > 0 and places[best - 1] in part
    count[kind + "s"] += 1
