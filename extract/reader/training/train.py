"""Train the reader.

    python -m extract.reader.training.train RECORDS... --base BASE --out DIR [--test RECORDS] [--left-out N]
    python -m extract.reader.training.train RECORDS... --from MODEL --out DIR [--epochs 1] [--rate 5e-5] [--threads 2]

Writes ``reader.pt``: the mean of what the first schedule and each of ``--rounds`` short ones after it led to; the mean reads
better than any of them. From BASE it takes minutes on a data-centre GPU, on a CPU hours. From MODEL, a reader that has learned
before, it learns on with a smaller rate, and DIR takes BASE's place for the export. Seeds are fixed; what remains unequal
from run to run is the order of sums on the GPU.
"""

from __future__ import annotations

import argparse
import random
import time
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import numpy as np
import torch
from tokenizers import Tokenizer
from transformers import AutoModel

from extract.reader.training import measure
from extract.reader.training.losses import loss_of
from extract.reader.training.network import Packed, ReaderNet
from extract.reader.training.resume import take_up
from extract.reader.training.shows import Show, in_digits, read_shows, units, varied

ROOM = 400
BATCH = 4
DROPPED = 0.06  # of the pieces are hidden
RATE = 2.5e-4  # of the encoder, from BASE; the heads learn HEADS times as fast
RATE_ON = 5e-5  # of the encoder, from a reader
ROUND, ROUND_RATE = 2, 1e-4  # epochs of a round and its rate
HEADS = 4
State = dict[str, torch.Tensor]
Encode = Callable[[Sequence[str]], list[list[int]]]


def encoder_of(tokenizer: Tokenizer) -> Encode:
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


def started(model: Path | None, base: Path, layers: int | None) -> ReaderNet:
    """The network to learn on with: a reader's, ``base`` made of it, or ``base`` under fresh heads."""
    if model:
        return take_up(model, base)
    depth = {"num_hidden_layers": layers} if layers else {}
    return ReaderNet(AutoModel.from_pretrained(base, dtype=torch.float32, add_pooling_layer=False, **depth))


def as_heard(
    batch: Sequence[Show], train: Sequence[Show], encode: Encode, rng: random.Random
) -> Sequence[Show]:
    """A batch as it is learned from: most shows varied, some with their figures in digits."""
    shows = [varied(s, train, rng) if rng.random() < 0.75 else s for s in batch]
    shows = [in_digits(s, encode) if s.raw and rng.random() < 0.4 else s for s in shows]
    return [s for s in shows if len(s.words) > 40] or batch[:1]


def fit(
    train: Sequence[Show],
    model: ReaderNet,
    tokenizer: Tokenizer,
    epochs: int,
    rate: float,
    rng: random.Random,
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
            shows = as_heard(order[at : at + BATCH], train, encode, rng)
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
    return model.eval()


def rounds(
    train: Sequence[Show], model: ReaderNet, tokenizer: Tokenizer, count: int, rng: random.Random
) -> Iterator[State]:
    """The mean of the network's weights as it stands, then as each further round leaves it."""
    sums = {name: value.float().clone() for name, value in model.state_dict().items()}
    yield sums
    for number in range(1, count + 1):
        fit(train, model, tokenizer, ROUND, ROUND_RATE, rng)
        for name, value in model.state_dict().items():
            sums[name] += value
        yield {name: value / (number + 1) for name, value in sums.items()}


def asked() -> argparse.Namespace:
    """The command line."""
    ap = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    ap.add_argument("records", nargs="+", type=Path)
    start = ap.add_mutually_exclusive_group(required=True)
    start.add_argument("--base", type=Path)
    start.add_argument("--from", type=Path, dest="model")
    ap.add_argument("--out", type=Path, required=True)
    ap.add_argument("--test", type=Path)
    ap.add_argument("--left-out", type=int, default=0)
    ap.add_argument("--epochs", type=int, default=14)
    ap.add_argument("--rate", type=float)
    ap.add_argument("--seed", type=int, default=0)
    ap.add_argument("--layers", type=int)
    ap.add_argument("--rounds", type=int, default=0)
    ap.add_argument("--left-out-of", type=Path)
    ap.add_argument("--threads", type=int)
    return ap.parse_args()


def names_left_out(names: set[str], count: int) -> set[str]:
    """So many of the shows' names, the same ones every time."""
    ordered = sorted(names)
    random.Random(1).shuffle(ordered)
    return set(ordered[:count])


def main() -> None:
    """Train on what is not left out, write the weights, print the figures of what was left out and of the test."""
    a = asked()
    if a.threads:
        torch.set_num_threads(a.threads)
    torch.manual_seed(a.seed)
    base = a.base or a.out
    net = started(a.model, base, a.layers)
    tokenizer = Tokenizer.from_file(str(base / "tokenizer.json"))
    encode = encoder_of(tokenizer)
    shows = [show for path in a.records for show in read_shows(path, encode)]
    first = read_shows(a.left_out_of, encode) if a.left_out_of else shows
    left = names_left_out({show.name for show in first}, a.left_out)
    kept = [s for s in shows if s.name not in left]
    rate = a.rate or (RATE_ON if a.model else RATE)
    rng = random.Random(a.seed)
    model = fit(kept, net, tokenizer, a.epochs, rate, rng)
    a.out.mkdir(parents=True, exist_ok=True)
    state: State = {}
    for state in rounds(kept, model, tokenizer, a.rounds, rng):
        torch.save({name: value.half() for name, value in state.items()}, a.out / "reader.pt")
    model.load_state_dict(state)
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
