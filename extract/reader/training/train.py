"""Train the reader.

    python -m extract.reader.training.train RECORDS... --base BASE --out DIR [--test RECORDS] [--left-out N]
    python -m extract.reader.training.train RECORDS... --from MODEL --out DIR [--epochs 1] [--rate 5e-5] [--threads 2]

Writes ``reader.pt``. From BASE it takes minutes on a data-centre GPU, on a CPU hours. From MODEL, a reader that has learned
before, it learns on with a smaller rate, and DIR takes BASE's place for the export. Seeds are fixed; what remains unequal
from run to run is the order of sums on the GPU.
"""

from __future__ import annotations

import argparse
import random
import time
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import numpy as np
import torch
from tokenizers import Tokenizer
from torch import Tensor
from torch.nn.functional import cross_entropy
from transformers import AutoModel

from extract.reader.labels import FIGURES, ROLES, THINGS
from extract.reader.training import measure
from extract.reader.training.network import Outputs, Packed, ReaderNet
from extract.reader.training.resume import take_up
from extract.reader.training.shows import (
    DISHES,
    OUTSIDE,
    Show,
    in_digits,
    majority,
    read_shows,
    units,
    varied,
)

ROOM = 400
BATCH = 4
WINDOW = 80
DROPPED = 0.03
RATE, RATE_ON = (
    2.5e-4,
    5e-5,
)  # of the encoder, from BASE and from a reader; the heads learn HEADS times as fast
HEADS = 4
RARE = {
    "instead": 3.0,
    "batch": 8.0,
    "share part": 3.0,
    "share rest": 3.0,
    "share some": 3.0,
    "share all": 3.0,
}


def encoder_of(tokenizer: Tokenizer) -> Any:
    """A function from words to the pieces of each."""
    unknown = tokenizer.token_to_id("[UNK]")

    def encode(words: Sequence[str]) -> list[list[int]]:
        found: list[list[int]] = [[] for _ in words]
        encoding = tokenizer.encode(list(words), is_pretokenized=True, add_special_tokens=False)
        for piece, word in zip(encoding.ids, encoding.word_ids, strict=True):
            if word is not None:
                found[word].append(piece)
        return [pieces[:8] or [unknown] for pieces in found]

    return encode


def stretches(show: Show, owner: np.ndarray, room: int = ROOM) -> Iterator[tuple[int, int]]:
    """Runs of whole units that fit into the encoder."""
    starts = [0, *(np.flatnonzero(np.diff(owner)) + 1).tolist(), len(show.words)]
    begin, size = 0, 0
    for a, b in zip(starts, starts[1:], strict=False):
        length = sum(len(show.pieces[i]) for i in range(a, b))
        if size and size + length > room:
            yield begin, a
            begin, size = a, 0
        size += length
    yield begin, len(show.words)


def pack(
    shows: Sequence[Show],
    owners: Sequence[np.ndarray],
    tokenizer: Tokenizer,
    device: str,
    rng: random.Random | None,
) -> Packed:
    """The batch as tensors; with ``rng`` a few pieces are hidden."""
    cls, sep, unknown = (tokenizer.token_to_id(t) for t in ("[CLS]", "[SEP]", "[UNK]"))
    rows: list[tuple[list[int], list[int]]] = []
    unit_of, unit_counts, base, units_before = [], [], 0, 0
    for show, owner in zip(shows, owners, strict=True):
        room = ROOM if rng is None else rng.choice((ROOM, ROOM - 100, ROOM - 40))
        for a, b in stretches(show, owner, room):
            ids, words = [cls], [-1]
            for i in range(a, b):
                ids += show.pieces[i]
                words += [base + i] * len(show.pieces[i])
            rows.append(([*ids, sep], [*words, -1]))
        unit_of.append(owner + units_before)
        unit_counts.append(int(owner[-1]) + 1)
        base += len(show.words)
        units_before += unit_counts[-1]
    width = max(len(ids) for ids, _ in rows)
    pieces, mask, word_of = (np.zeros((len(rows), width), dtype=np.int64) for _ in range(3))
    word_of -= 1
    for k, (ids, words) in enumerate(rows):
        pieces[k, : len(ids)], mask[k, : len(ids)], word_of[k, : len(ids)] = ids, 1, words
    if rng is not None:
        hidden = (np.random.default_rng(rng.getrandbits(32)).random(pieces.shape) < DROPPED) & (word_of >= 0)
        pieces[hidden] = unknown
    to = lambda v: torch.as_tensor(v, device=device)
    return Packed(
        to(pieces),
        to(mask),
        to(word_of),
        to(np.concatenate(unit_of)),
        unit_counts,
        [len(s.words) for s in shows],
    )


def begins(slots: np.ndarray) -> np.ndarray:
    """For each unit 1 where a dish begins, 2 where one is taken up again, 0 elsewhere."""
    out, last, seen = np.zeros(len(slots), dtype=np.int64), 0, set()
    for i, slot in enumerate(slots):
        if slot and slot != last:
            out[i] = 2 if slot in seen else 1
            seen.add(slot)
            last = slot
    return out


class Targets:
    """What the outputs of one show are held against."""

    def __init__(self, show: Show, owner: np.ndarray) -> None:
        count = int(owner[-1]) + 1
        self.role = majority(show.role, owner, count, len(ROLES))
        self.slot = majority(show.slots(), owner, count, DISHES)
        self.begin = begins(self.slot)
        self.dish = np.array([hash_letter(letter) for letter in show.dish])
        self.optional = np.full(len(show.words), -1)
        self.parting = np.full(len(show.words), -1)
        for line in show.lines:
            self.optional[line["food"][0]] = line["optional"]
            self.parting[line["food"][0]] = line["parting"]


def hash_letter(letter: str) -> int:
    return -1 if letter == OUTSIDE else sum(ord(c) * 31**k for k, c in enumerate(letter)) % 100003


def loss_of(
    model: ReaderNet, out: Outputs, shows: Sequence[Show], owners: Sequence[np.ndarray], device: str
) -> Tensor:
    """The sum of the heads' losses over a batch."""
    targets = [Targets(s, o) for s, o in zip(shows, owners, strict=True)]
    to = lambda rows: torch.as_tensor(np.concatenate(rows), device=device)
    weigh = lambda *w: torch.tensor(w, device=device)
    loss = 0.5 * cross_entropy(out.unit_role, to([t.role for t in targets]), label_smoothing=0.05)
    loss = loss + cross_entropy(out.role, to([s.role for s in shows]), label_smoothing=0.05)
    loss = loss + cross_entropy(out.dish, to([t.slot for t in targets]))
    loss = loss + cross_entropy(out.begin, to([t.begin for t in targets]), weight=weigh(1.0, 4.0, 4.0))
    things = weigh(*(RARE.get(name, 1.5 if name else 1.0) for name in THINGS))
    loss = loss + 3 * cross_entropy(out.things, to([s.things for s in shows]), weight=things)
    figures = weigh(*(RARE.get(name, 2.0 if name else 1.0) for name in FIGURES))
    loss = loss + 3 * cross_entropy(out.figures, to([s.figures for s in shows]), weight=figures)
    loss = loss + cross_entropy(out.title, to([s.title for s in shows]), weight=weigh(1.0, 3.0, 3.0, 1.5))
    loss = loss + 0.3 * cross_entropy(out.line[:, 1:], to([t.parting for t in targets]), ignore_index=-1)
    optional = to([t.optional for t in targets])
    marked = optional >= 0
    if marked.any():
        scores = out.line[marked, 0]
        loss = loss + 0.2 * torch.nn.functional.binary_cross_entropy_with_logits(
            scores, optional[marked].float()
        )
    return loss + show_losses(model, out, shows, owners, targets, device)


def show_losses(
    model: ReaderNet,
    out: Outputs,
    shows: Sequence[Show],
    owners: Sequence[np.ndarray],
    targets: Sequence[Targets],
    device: str,
) -> Tensor:
    """The losses of pairs: units of one dish, amounts of foods, names of parts and shares."""
    total = torch.zeros((), device=device)
    unit, word = 0, 0
    for show, owner, target in zip(shows, owners, targets, strict=True):
        n, m = int(owner[-1]) + 1, len(show.words)
        total = total + same_dish(
            model, out.where[unit : unit + n], torch.as_tensor(target.slot, device=device)
        )
        pair = out.pair[word : word + m]
        losses = list(pair_losses(model, pair, show, target))
        if losses:
            total = total + torch.stack(losses).sum() / 25
        unit, word = unit + n, word + m
    return total / len(shows)


def same_dish(model: ReaderNet, where: Tensor, slot: Tensor) -> Tensor:
    """Whether two units belong to one dish, over all pairs of units inside dishes."""
    inside = slot > 0
    rows, slot = where[inside], slot[inside]
    if len(rows) < 2:
        return torch.zeros((), device=where.device)
    scores = model.where_bias[0] + torch.exp(model.where_bias[1]) * (rows @ rows.T) / 8
    wanted = (slot[:, None] == slot[None, :]).float()
    return torch.nn.functional.binary_cross_entropy_with_logits(scores, wanted)


def pair_losses(model: ReaderNet, pair: Tensor, show: Show, target: Targets) -> Iterator[Tensor]:
    """The losses of the amounts, of the parts' names and of the things shared, each a sum over a show."""
    cand = np.flatnonzero(show.candidates)
    lines = [line for line in show.lines if line["amount"] != -2]
    if lines and len(cand):
        at = np.array([line["food"][1] - 1 for line in lines])
        right = np.zeros((len(lines), 1 + len(cand)), dtype=bool)
        for k, line in enumerate(lines):
            span = line["amount"]
            right[k, 1:] = False if span == -1 else (cand >= span[0]) & (cand < span[1])
            right[k, 0] = span == -1
        allowed = np.concatenate(
            [np.ones((len(at), 1), dtype=bool), np.abs(cand[None, :] - at[:, None]) <= WINDOW], 1
        )
        yield chosen(model.amount_scores(pair, at, cand), right, allowed)
    letters = target.dish
    named = [(line["food"][1] - 1, line["part"], line["dish"]) for line in show.lines]
    yield from name_loss(model, pair, letters, named, share=False)
    yield from name_loss(
        model, pair, letters, [(s["at"], s["of"], s["dish"]) for s in show.shares], share=True
    )


def name_loss(
    model: ReaderNet, pair: Tensor, letters: np.ndarray, rows: Sequence[Any], *, share: bool
) -> Iterator[Tensor]:
    """The loss of the names; those that the words do not settle are left out."""
    rows = [row for row in rows if row[1] != -2]
    if not rows:
        return
    places = np.arange(len(letters))
    at = np.array([row[0] for row in rows])
    right = np.zeros((len(rows), 1 + len(places)), dtype=bool)
    allowed = np.ones_like(right)
    for k, (_, part, dish) in enumerate(rows):
        allowed[k, 1:] = letters == hash_letter(dish)
        if part == -1:
            right[k, 0] = True
        else:
            right[k, 1 + np.array(part)] = True
    yield chosen(model.name_scores(pair, at, places, share=share), right, allowed)


def chosen(scores: Tensor, right: np.ndarray, allowed: np.ndarray) -> Tensor:
    """The loss of choices, a row each: any of the right places will do; "none" is place 0."""
    right = right & allowed
    rows = right.any(1)
    scores = scores[torch.as_tensor(rows, device=scores.device)]
    mask = lambda m: torch.as_tensor(m[rows], device=scores.device)
    free = scores.masked_fill(~mask(allowed), -1e4)
    return (torch.logsumexp(free, 1) - torch.logsumexp(free.masked_fill(~mask(right), -1e4), 1)).sum()


def started(model: Path | None, base: Path, layers: int | None) -> ReaderNet:
    """The network to learn on with: a reader's, ``base`` made of it, or ``base`` under fresh heads."""
    if model:
        return take_up(model, base)
    depth = {"num_hidden_layers": layers} if layers else {}
    return ReaderNet(AutoModel.from_pretrained(base, dtype=torch.float32, add_pooling_layer=False, **depth))


def fit(
    train: Sequence[Show],
    model: ReaderNet,
    tokenizer: Tokenizer,
    epochs: int,
    rate: float,
    rng: random.Random,
    minutes: float,
) -> ReaderNet:
    """The network fitted to the shows."""
    device = "cuda" if torch.cuda.is_available() else "cpu"
    model = model.to(device)
    encode = encoder_of(tokenizer)
    own = [p for n, p in model.named_parameters() if not n.startswith("encoder.")]
    groups = [{"params": model.encoder.parameters(), "lr": rate}, {"params": own, "lr": HEADS * rate}]
    opt = torch.optim.AdamW(groups, weight_decay=0.01)
    told = [[show for show in train if show.name == name] for name in dict.fromkeys(s.name for s in train)]
    steps = epochs * ((len(told) + BATCH - 1) // BATCH) + 1
    plan = torch.optim.lr_scheduler.OneCycleLR(opt, [rate, HEADS * rate], total_steps=steps, pct_start=0.1)
    model.train()
    began = time.monotonic()
    for epoch in range(epochs):
        order = [rng.choice(renderings) for renderings in told]
        rng.shuffle(order)
        sums = 0.0
        for at in range(0, len(order), BATCH):
            shows = [varied(s, train, rng) if rng.random() < 0.75 else s for s in order[at : at + BATCH]]
            shows = [in_digits(s, encode) if s.raw and rng.random() < 0.4 else s for s in shows]
            shows = [s for s in shows if len(s.words) > 40] or order[at : at + 1]
            owners = [units(s.words, rng.randrange(6)) for s in shows]
            batch = pack(shows, owners, tokenizer, device, rng)
            out = model.read(model.words(batch), batch.unit_of, batch.unit_counts)
            loss = loss_of(model, out, shows, owners, device)
            opt.zero_grad()
            loss.backward()
            torch.nn.utils.clip_grad_norm_(model.parameters(), 1.0)
            opt.step(), plan.step()
            sums += loss.detach()
        print(
            f"epoch {epoch + 1}: loss {float(sums) / (len(order) / BATCH):.3f}, {time.monotonic() - began:.0f} s",
            flush=True,
        )
        if minutes and time.monotonic() - began > 60 * minutes:
            break
    return model.eval()


def main() -> None:
    ap = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    ap.add_argument("records", nargs="+", type=Path)
    start = ap.add_mutually_exclusive_group(required=True)
    start.add_argument("--base", type=Path), start.add_argument("--from", type=Path, dest="model")
    (
        ap.add_argument("--out", type=Path, required=True),
        ap.add_argument("--test", type=Path),
        ap.add_argument("--left-out", type=int, default=0),
        ap.add_argument("--epochs", type=int, default=14),
    )
    (
        ap.add_argument("--rate", type=float),
        ap.add_argument("--seed", type=int, default=0),
        ap.add_argument("--layers", type=int),
        ap.add_argument("--minutes", type=float, default=0.0),
        ap.add_argument("--left-out-of", type=Path),
        ap.add_argument("--threads", type=int),
    )
    a = ap.parse_args()
    if a.threads:
        torch.set_num_threads(a.threads)
    torch.manual_seed(a.seed)
    base = a.base or a.out
    net = started(a.model, base, a.layers)
    tokenizer = Tokenizer.from_file(str(base / "tokenizer.json"))
    encode = encoder_of(tokenizer)
    shows = [show for path in a.records for show in read_shows(path, encode)]
    first = (
        {show.name for show in read_shows(a.left_out_of, encode)}
        if a.left_out_of
        else {show.name for show in shows}
    )
    names = sorted(first)
    random.Random(1).shuffle(names)
    left = set(names[: a.left_out])
    kept = {show.name for show in shows} - left
    model = fit(
        [s for s in shows if s.name in kept],
        net,
        tokenizer,
        a.epochs,
        a.rate or (RATE_ON if a.model else RATE),
        random.Random(a.seed),
        a.minutes,
    )
    a.out.mkdir(parents=True, exist_ok=True)
    torch.save({k: v.half() for k, v in model.state_dict().items()}, a.out / "reader.pt")
    sets = {
        "left out": [s for s in shows if s.name in left],
        "test": read_shows(a.test, encode) if a.test else [],
    }
    for name, rows in sets.items():
        for raw in (False, True):
            own = [s for s in rows if s.raw == raw]
            if own:
                print(name, "raw" if raw else "cased", measure.figures(model, own, tokenizer), flush=True)


if __name__ == "__main__":
    main()
