"""Labelled talks as arrays, cut into units, recombined into further shows."""

from __future__ import annotations

import gzip
import json
import random
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import numpy as np

from extract.reader.labels import ROLES
from extract.reader.units import unit_starts

OUTSIDE = "-"
IN_NONE = {ROLES.index(role) for role in ("hi", "visit", "break", "bye", "junk")}
TEASE = ROLES.index("tease")
DISHES = 8


@dataclass
class Show:
    """One show, token by token. ``dish`` holds letters, "-" outside; teasers belong to none."""

    words: list[str]
    role: np.ndarray
    dish: list[str]
    sentence: np.ndarray
    things: np.ndarray
    figures: np.ndarray
    title: np.ndarray
    candidates: np.ndarray
    lines: list[dict[str, Any]]
    shares: list[dict[str, Any]]
    name: str = ""
    raw: bool = False
    pieces: list[list[int]] = field(default_factory=list)

    def slots(self) -> np.ndarray:
        """The dish of each token by the order in which dishes are begun; 0 outside."""
        order: dict[str, int] = {}
        out = np.zeros(len(self.words), dtype=np.int64)
        for i, letter in enumerate(self.dish):
            if letter != OUTSIDE and self.role[i] != TEASE:
                order.setdefault(letter, len(order) + 1)
                out[i] = min(order[letter], DISHES - 1)
        return out


def read_shows(path: Path, encode: Any) -> list[Show]:
    """The shows of a file of records (gzipped or plain); ``encode`` gives the pieces of each word."""
    opened = gzip.open(path, "rt") if path.suffix == ".gz" else path.open()
    shows = []
    with opened as file:
        for row in map(json.loads, file):
            candidates = np.zeros(len(row["words"]), dtype=bool)
            candidates[row["cand"]] = True
            arrays = {k: np.array(row[k]) for k in ("role", "sentence", "things", "figures", "title")}
            shows.append(
                Show(
                    row["words"],
                    dish=row["dish"],
                    candidates=candidates,
                    lines=row["lines"],
                    shares=row["shares"],
                    name=row["id"],
                    raw=row["raw"],
                    pieces=encode(row["words"]),
                    **arrays,
                )
            )
    return shows


def taken(parts: Sequence[tuple[Show, np.ndarray, str]]) -> Show:
    """A show made of pieces of others: of each show the tokens kept, its dishes' letters behind a prefix."""
    words: list[str] = []
    dish: list[str] = []
    pieces: list[list[int]] = []
    lines: list[dict[str, Any]] = []
    shares: list[dict[str, Any]] = []
    arrays: dict[str, list[np.ndarray]] = {
        k: [] for k in ("role", "sentence", "things", "figures", "title", "candidates")
    }
    for number, (show, keep, prefix) in enumerate(parts):
        moved = np.full(len(show.words) + 1, -1)
        moved[keep] = np.arange(len(keep)) + len(words)
        words += [show.words[i] for i in keep]
        pieces += [show.pieces[i] for i in keep]
        dish += [show.dish[i] if show.dish[i] == OUTSIDE else prefix + show.dish[i] for i in keep]
        for key, rows in arrays.items():
            value = getattr(show, key)[keep]
            rows.append(value + 100000 * number if key == "sentence" else value)
        lines += [line for old in show.lines if (line := move_line(old, moved, prefix)) is not None]
        shares += [share for old in show.shares if (share := move_share(old, moved, prefix)) is not None]
    joined = {key: np.concatenate(rows) for key, rows in arrays.items()}
    first = parts[0][0]
    return Show(
        words, dish=dish, lines=lines, shares=shares, pieces=pieces, raw=first.raw, name=first.name, **joined
    )


def move_span(span: list[int], moved: np.ndarray) -> list[int] | None:
    start, last = int(moved[span[0]]), int(moved[span[1] - 1])
    return [start, last + 1] if start >= 0 and last - start == span[1] - 1 - span[0] else None


def move_line(line: dict[str, Any], moved: np.ndarray, prefix: str) -> dict[str, Any] | None:
    """A line with its spans where they stand now; None where its food is gone."""
    food = move_span(line["food"], moved)
    if food is None:
        return None
    amount = line["amount"]
    if isinstance(amount, list):
        amount = move_span(amount, moved) or -2
    return {
        **line,
        "food": food,
        "amount": amount,
        "part": move_places(line["part"], moved),
        "dish": prefix + line["dish"],
    }


def move_share(share: dict[str, Any], moved: np.ndarray, prefix: str) -> dict[str, Any] | None:
    at = int(moved[share["at"]])
    return (
        {"at": at, "of": move_places(share["of"], moved), "dish": prefix + share["dish"]} if at >= 0 else None
    )


def move_places(places: list[int] | int, moved: np.ndarray) -> list[int] | int:
    if isinstance(places, int):
        return places
    return [int(moved[i]) for i in places if moved[i] >= 0] or -2


def varied(show: Show, others: Sequence[Show], rng: random.Random) -> Show:
    """Another show made of this one: a dish of another put in behind its visit, or a dish, a visit, teasers left out."""
    keep = np.ones(len(show.words), dtype=bool)
    letters = sorted({letter for letter in show.dish if letter != OUTSIDE})
    roles = show.role
    own = np.array(show.dish)
    chance = rng.random()
    if 0.35 <= chance < 0.5 and len(letters) > 1:
        keep &= own != rng.choice(letters)
    for names, likely in ((("visit",), 0.15), (("tease", "hi"), 0.2), (("bye", "break"), 0.2)):
        if rng.random() < likely:
            keep &= ~np.isin(roles, [ROLES.index(name) for name in names])
    parts = [(show, np.flatnonzero(keep), "")]
    if chance < 0.5 and len(show.words) < 2200:
        parts = inserted(show, keep, rng.choice([o for o in others if o.raw == show.raw]), "z", rng)
    made = taken(parts)
    if chance < 0.15 and len(made.words) < 2200:
        other = rng.choice([o for o in others if o.raw == show.raw])
        made = taken(inserted(made, np.ones(len(made.words), dtype=bool), other, "y", rng))
    return made


def inserted(
    show: Show, keep: np.ndarray, other: Show, prefix: str, rng: random.Random
) -> list[tuple[Show, np.ndarray, str]]:
    """The show with a dish of another, at the end, between its dishes, or where one is interrupted."""
    letters = sorted({letter for letter in other.dish if letter != OUTSIDE})
    letter = rng.choice(letters)
    theirs = np.array(other.dish) == letter
    block = theirs & (other.role != TEASE)
    if rng.random() < 0.3:
        block &= other.role != ROLES.index("open")
    visit = other.role == ROLES.index("visit")
    if visit.sum() < 500 and rng.random() < 0.5:
        block |= visit
    bye = np.flatnonzero(show.role == ROLES.index("bye"))
    end = int(bye[0]) if len(bye) else len(show.words)
    slots = show.slots()
    turns = [i for i in range(1, len(slots)) if slots[i] != slots[i - 1] and slots[i]]
    at = rng.choice([end, end, *turns]) if turns else end
    kept = np.flatnonzero(keep)
    parts = [
        (show, kept[kept < at], ""),
        (other, np.flatnonzero(block), prefix),
        (show, kept[kept >= at], ""),
    ]
    return [part for part in parts if len(part[1])]


DIGITS = dict(
    zip(
        "one two three four five six seven eight nine ten twelve fifteen twenty thirty forty fifty".split(),
        "1 2 3 4 5 6 7 8 9 10 12 15 20 30 40 50".split(),
        strict=True,
    )
)


def in_digits(show: Show, encode: Any) -> Show:
    """The show as a recogniser writes it that puts figures for numbers."""
    words = [DIGITS.get(word.lower(), word) for word in show.words]
    changed = [i for i, word in enumerate(words) if word != show.words[i]]
    pieces = list(show.pieces)
    for i, new in zip(changed, encode([words[i] for i in changed]), strict=True) if changed else ():
        pieces[i] = new
    return replace(show, words=words, pieces=pieces)


def units(words: Sequence[str], offset: int = 0) -> np.ndarray:
    """The unit of each word."""
    starts = unit_starts(words, offset)
    out = np.zeros(len(words), dtype=np.int64)
    out[list(starts)[1:]] = 1
    return np.cumsum(out)


def majority(values: np.ndarray, owner: np.ndarray, count: int, classes: int) -> np.ndarray:
    """The commonest class of each unit."""
    table = np.zeros((count, classes), dtype=np.int64)
    np.add.at(table, (owner, values), 1)
    return table.argmax(1)
