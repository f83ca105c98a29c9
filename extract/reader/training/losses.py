"""What the reader's outputs are held against: the losses of its heads over a batch of shows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np
import torch
from torch import Tensor
from torch.nn.functional import cross_entropy

from extract.reader.labels import FIGURES, ROLES, THINGS
from extract.reader.training.network import Outputs, ReaderNet
from extract.reader.training.shows import DISHES, OUTSIDE, Show, majority

WINDOW = 80  # words between a food and an amount beyond which the two are no pair
RARE = {
    "instead": 3.0,
    "batch": 8.0,
    "share part": 3.0,
    "share rest": 3.0,
    "share some": 3.0,
    "share all": 3.0,
}


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
    loss = loss + 2 * cross_entropy(out.title, to([s.title for s in shows]), weight=weigh(1.0, 3.0, 3.0, 1.5))
    loss = loss + 0.8 * cross_entropy(out.line[:, 1:], to([t.parting for t in targets]), ignore_index=-1)
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
