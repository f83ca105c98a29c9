"""Units of speech are placed in dishes by one search, from readings made up so that the right answer is plain."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from extract.reader.labels import FIGURES, ROLES, THINGS, TITLE
from extract.reader.reading import Biases, Floats, Reading
from extract.segment.evidence import dish_weights, gather, kinship
from extract.segment.paths import Costs, best_paths
from extract.segment.search import place_units

UNIT = 8


def sure(column: int, columns: int, chance: float = 0.9) -> list[float]:
    """Probabilities that are nearly sure of one column."""
    return [chance if k == column else (1 - chance) / (columns - 1) for k in range(columns)]


def read(dishes: str, *, foods: float = 0.2, begins: bool = True) -> Reading:
    """A reading of units of eight tokens: "." for talk around the dishes, a digit for a dish in order of appearance."""
    numbers = [0 if mark == "." else int(mark) for mark in dishes]
    seen, last, begin = set(), 0, []
    for number in numbers:
        kind = 0 if number in (0, last) else 2 if number in seen else 1
        seen.add(number)
        last = number or last
        begin.append(sure(kind, 3) if begins else [1 / 3] * 3)
    roles = [sure(ROLES.index("do" if number else "visit"), len(ROLES)) for number in numbers]
    vectors = np.eye(64, dtype=np.float32)[numbers] * 8
    things = [1 - foods, foods] + [0.0] * (len(THINGS) - 2)
    tokens = len(numbers) * UNIT
    return Reading(
        starts=np.arange(0, tokens, UNIT),
        dish=np.array([sure(number, 8) for number in numbers], dtype=np.float32),
        begin=np.array(begin, dtype=np.float32),
        where=vectors,
        role=np.repeat(np.array(roles, dtype=np.float32), UNIT, axis=0),
        things=np.tile(np.array(things, dtype=np.float32), (tokens, 1)),
        figures=plain(len(FIGURES), tokens),
        title=plain(len(TITLE), tokens),
        optional=np.zeros(tokens, dtype=np.float32),
        parting=plain(3, tokens),
        pair=np.zeros((tokens, 1), dtype=np.float32),
        biases=Biases(np.zeros(21, dtype=np.float32), np.zeros((2, 21), dtype=np.float32), (-6.0, 0.0)),
    )


def plain(columns: int, tokens: int) -> Floats:
    """Each token surely of the first column."""
    return np.tile(np.array(sure(0, columns), dtype=np.float32), (tokens, 1))


def marks(reading: Reading) -> str:
    return "".join("." if not dish else str(dish) for dish in place_units(reading).tolist())


@pytest.mark.parametrize(
    "dishes",
    [
        "1" * 40,
        "...." + "1" * 30 + "....",
        "..." + "1" * 30 + "2" * 30 + "..",
        "..." + "1" * 30 + "....." + "2" * 30,
        "1" * 30 + "2" * 30 + "1" * 20,
        "1" * 25 + "2" * 25 + "3" * 25 + "1" * 25 + "2" * 25,
    ],
)
def test_places_units_where_the_reading_is_sure(dishes: str) -> None:
    assert marks(read(dishes)) == dishes


def test_talk_within_one_dish_does_not_split_it() -> None:
    dishes = "1" * 25 + "...." + "1" * 25
    assert marks(read(dishes)) == dishes


def test_agreement_tells_a_dish_that_the_order_of_dishes_does_not() -> None:
    told = read("1" * 30 + "2" * 30)
    alike = np.tile(np.array(sure(1, 8), dtype=np.float32), (60, 1))
    reading = Reading(**{**{name: getattr(told, name) for name in told.__dataclass_fields__}, "dish": alike})
    assert marks(reading) == "1" * 30 + "2" * 30


def test_a_remark_of_one_unit_is_no_further_dish() -> None:
    assert "2" not in marks(read("1" * 25 + "2" + "1" * 25))


def test_a_talk_without_units_has_no_dishes() -> None:
    reading = read("1")
    empty = {name: getattr(reading, name)[:0] for name in reading.__dataclass_fields__ if name != "biases"}
    assert len(place_units(Reading(**empty, biases=reading.biases))) == 0


@given(st.lists(st.sampled_from("..1123"), min_size=1, max_size=40))
def test_dishes_are_numbered_in_the_order_in_which_they_begin(parts: list[str]) -> None:
    placed = [dish for dish in place_units(read("".join(parts), begins=False)).tolist() if dish]
    assert list(dict.fromkeys(placed)) == list(range(1, len(set(placed)) + 1))


def test_a_unit_is_held_against_the_others_of_its_dish_and_not_against_itself() -> None:
    weights = dish_weights()
    evidence = gather(read("1112"), weights)
    odds = kinship(evidence, np.array([1, 1, 1, 2]), weights)
    assert odds[3, 1] == odds[0, 2] == -3.0  # alone in its dish, and a dish without units
    assert odds[0, 0] > odds[3, 0]


def worth_of(path: tuple[int, ...], gain: np.ndarray, begin: np.ndarray, costs: Costs) -> tuple[float, int]:
    """The worth of one path by the rules as they are told, and its dishes."""
    total, last, begun, inside = 0.0, 0, 0, False
    for unit, dish in enumerate(path):
        if not dish:
            total -= costs.leave * inside
            inside = False
            continue
        if dish == begun + 1:
            total += begin[unit, 1] - costs.dish - costs.leave * inside
            begun = dish
        elif dish > begun:
            return -np.inf, 0
        elif dish == last:
            total += begin[unit, 0] - costs.enter * (not inside)
        else:
            total += begin[unit, 2] - costs.again - costs.leave * inside
        total, last, inside = total + gain[unit, dish - 1], dish, True
    return total - costs.leave * inside, begun


@given(st.integers(0, 10_000), st.integers(1, 6))
def test_finds_the_best_of_all_paths(seed: int, units: int) -> None:
    """Against every path there is, each reckoned by itself."""
    rng = np.random.default_rng(seed)
    gain, begin = rng.normal(0, 3, (units, 3)), rng.normal(0, 2, (units, 3))
    costs = Costs(*rng.normal(0.5, 1, 4).clip(0).tolist())
    counts = np.array([n for n in (1, 2, 3) if n <= units])
    worth, paths = best_paths(np.stack([gain] * len(counts)), np.stack([begin] * len(counts)), counts, costs)
    every = [worth_of(path, gain, begin, costs) for path in itertools.product(range(4), repeat=units)]
    for n, found, path in zip(counts.tolist(), worth, paths, strict=True):
        assert found == pytest.approx(max(total for total, begun in every if begun == n))
        assert worth_of(tuple(path.tolist()), gain, begin, costs) == (pytest.approx(found), n)
