"""The weights by which units of speech are placed in dishes, fitted to talks that the reader has not learned from.

    python -m extract.reader.training.dishes MODEL LABELS... OUT

``MODEL`` is a reader, ``LABELS`` files of labelled talks (``prepare``) left out of its training, ``OUT`` the lexicon.
Each weight in turn is moved along its scale, from where it stands, as long as the talks are cut better; at last a dish
is made as dear as it can be before they are cut worse by more than one standard error: of
what fits alike the fewest dishes are kept.
"""

from __future__ import annotations

import json
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields, replace
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from extract.reader.labels import ROLES
from extract.reader.read import load_reader, read_words
from extract.reader.reading import Places, Reading
from extract.segment.evidence import Weights, dish_weights
from extract.segment.search import place_units

IN_DISH, IN_NONE = (
    tuple(ROLES.index(role) for role in names)
    for names in (("open", "need", "do", "ahead", "sign"), ("visit", "break", "bye", "junk"))
)
TEASE = ROLES.index("tease")
NEAR = 50  # tokens that a bound may be off
COUNT, BOUNDS = (
    12,
    10,
)  # what the right number of dishes and the right bounds count beside a hundred of the cut
ROUNDS = 3
SCALES: dict[str, tuple[float, ...]] = {
    "role": (0.5, 0.7, 1, 1.4),
    "none": (0, 0.2, 0.5, 1),
    "slot": (0, 0.02, 0.05, 0.1, 0.2),
    "start": (0.1, 0.3, 0.6, 1),
    "begin": (0.3, 0.5, 0.7, 1, 1.4),
    "kin": (1, 1.5, 2, 3, 4),
    "dish": (0, 2, 4, 6, 10, 14, 20, 26, 34, 45),
    "again": (-1, 0, 1, 2, 3, 5),
    "leave": (0, 1, 2, 3),
    "enter": (0, 1, 2, 3),
    "few": (0, 2, 5, 8, 15),
    "floor": (0.01, 0.03, 0.1, 0.2),
    "shrink": (0.5, 1, 2, 4),
    "shift": (-1, -0.5, 0, 0.5, 1, 1.5),
    "lines": (3, 5, 8),
}


@dataclass(frozen=True, slots=True)
class LabelledTalk:
    """A reading with each token's role and dish (from 1 by the first that is no teaser, 0 for none)."""

    reading: Reading
    roles: Places
    dishes: Places


def labelled(reading: Reading, roles: Sequence[int], letters: Sequence[str]) -> LabelledTalk:
    """A talk of which ``letters`` name the dish of each token, "-" for none."""
    order: dict[str, int] = {}
    for letter, role in zip(letters, roles, strict=True):
        if letter != "-" and role != TEASE:
            order.setdefault(letter, len(order) + 1)
    return LabelledTalk(reading, np.array(roles), np.array([order.get(letter, 0) for letter in letters]))


def worth(talk: LabelledTalk, placed: Places) -> float:
    """How well the tokens' dishes ``placed`` fit the talk, up to 122."""
    inside, outside = np.isin(talk.roles, IN_DISH), np.isin(talk.roles, IN_NONE)
    both = inside & (placed > 0)
    pairs: dict[int, int] = {}
    for (dish, gold), _ in Counter(
        zip(placed[both].tolist(), talk.dishes[both].tolist(), strict=True)
    ).most_common():
        if dish not in pairs and gold not in pairs.values():
            pairs[dish] = gold
    got = np.array([pairs.get(dish, -1) if dish else 0 for dish in placed.tolist()])
    right = int((got[inside] == talk.dishes[inside]).sum() + (got[outside] == 0).sum())
    drafted, real = int(placed.max(initial=0)), int(talk.dishes.max(initial=0))
    told = talk.roles != TEASE
    hits = sum(_bounds_fit(placed == dish, (talk.dishes == gold) & told) for dish, gold in pairs.items())
    cut = 100 * right / max(1, int(inside.sum() + outside.sum()))
    return cut + COUNT * (drafted == real) + BOUNDS * 2 * hits / max(1, drafted + real)


def _bounds_fit(drafted: NDArray[np.bool_], real: NDArray[np.bool_]) -> bool:
    """Whether both ends lie near."""
    mine, theirs = np.flatnonzero(drafted), np.flatnonzero(real)
    return (
        bool(len(mine) and len(theirs))
        and abs(mine[0] - theirs[0]) <= NEAR
        and abs(mine[-1] - theirs[-1]) <= NEAR
    )


def worths(talks: Sequence[LabelledTalk], weights: Weights) -> NDArray[np.float64]:
    """How well each talk is cut with the weights."""
    return np.array([worth(talk, place_units(talk.reading, weights)[talk.reading.unit_of]) for talk in talks])


def fit(talks: Sequence[LabelledTalk], weights: Weights) -> Weights:
    """The weights, moved from those given, that cut the talks best, with the dearest dish that cuts them as well."""
    best = worths(talks, weights)
    for _ in range(ROUNDS):
        for name in SCALES:
            for other in _beside(weights, name):
                found = worths(talks, other)
                if found.mean() > best.mean():
                    weights, best = other, found
    for cost in (cost for cost in SCALES["dish"] if cost > weights.dish):
        lost = best - worths(talks, replace(weights, dish=cost))
        if lost.mean() > lost.std() / len(talks) ** 0.5:
            break
        weights = replace(weights, dish=cost)
    return weights


def _beside(weights: Weights, name: str) -> Iterator[Weights]:
    """The weights with one of them a step down and up to two steps up its scale."""
    scale = SCALES[name]
    at = scale.index(getattr(weights, name))
    for place in (at - 1, at + 1, at + 2):
        if 0 <= place < len(scale):
            yield replace(weights, **{name: scale[place]})


def main(model: str, *files: str) -> None:
    """Fit and write the lexicon below the comments that it has."""
    reader, out, talks = load_reader(Path(model)), Path(files[-1]), []
    for file in files[:-1]:
        for line in Path(file).read_text(encoding="utf-8").splitlines():
            row = json.loads(line)
            talks.append(labelled(read_words(row["words"], reader), row["role"], row["dish"]))
    weights = fit(talks, dish_weights())
    comments = (
        [line for line in out.read_text(encoding="utf-8").splitlines() if line.startswith("#")]
        if out.exists()
        else []
    )
    rows = [f"{field.name}\t{getattr(weights, field.name):g}" for field in fields(weights)]
    out.write_text("\n".join([*comments, "evidence\tweight", *rows]) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main(*sys.argv[1:])
