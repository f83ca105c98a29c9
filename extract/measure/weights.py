"""What a volume or a piece of a food weighs, from the USDA's measured household weights.

A food in the state that was said has one figure or none: chopped onion and sliced onion weigh differently.
Where the state that matters was not said, or no record holds it, the answer is a reason and no weight.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from extract.lexicon import Row, read_lexicon
from extract.measure.figures import decimal, mixed
from extract.measure.units import convert_figure
from extract.spot.names.foods import canonical, name_keys, split_name

FOOD_COLUMNS = ("food", "also", "by", "us")
DENSITY_COLUMNS = ("food", "state", "grams", "measure", "default", "spread", "record")
PIECE_COLUMNS = ("food", "unit", "size", "grams", "count", "default", "record")
WORD_COLUMNS = ("word", "role", "state")
_AGREE = Fraction(105, 100)
_RAW_STATES = frozenset({"raw", "cooked", "dried", "canned", "frozen"})

Keys = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Weight:
    """A measured weight: ``grams`` of 1 ml or of one piece, and where the figure is from.

    ``stated``: the figure is for the state that was said of the food, not for the one it has by default.
    """

    grams: Fraction
    basis: str
    stated: bool = False


@dataclass(frozen=True, slots=True)
class NoWeight:
    """Why there is no weight, in words that can follow "not converted:"."""

    reason: str


@dataclass(frozen=True, slots=True)
class FoodMeasure:
    """How cooks measure a food: ``by`` weight or volume in metric; ``us`` by cup or by scale."""

    food: str
    by: str
    us: str


@dataclass(frozen=True, slots=True)
class _Words:
    """What was said of a food: its states, those by the knife, those never passed over, its sizes."""

    states: frozenset[str]
    cuts: frozenset[str]
    strict: frozenset[str]
    sizes: tuple[str, ...]


@cache
def _foods() -> dict[Keys, FoodMeasure]:
    table: dict[Keys, FoodMeasure] = {}
    for row in read_lexicon("measured_foods", columns=FOOD_COLUMNS):
        measure = FoodMeasure(row["food"], row["by"], row["us"])
        for name in (row["food"], *(row["also"].split("; ") if row["also"] else ())):
            table.setdefault(name_keys(name), measure)
    return table


@cache
def _rows(table: str) -> dict[str, list[Row]]:
    columns = DENSITY_COLUMNS if table == "densities" else PIECE_COLUMNS
    rows: dict[str, list[Row]] = {}
    for row in read_lexicon(table, columns=columns):
        rows.setdefault(row["food"], []).append(row)
    return rows


@cache
def _weight_words() -> dict[str, tuple[str, str]]:
    rows = read_lexicon("weight_words", columns=WORD_COLUMNS)
    return {row["word"]: (row["role"], row["state"]) for row in rows}


def measure_of(name: str) -> FoodMeasure | None:
    """How cooks measure the food that ``name`` names, or None where the lexicon does not have it."""
    found = _identify(name)
    return found[0] if found else None


def states_of(text: str) -> frozenset[str]:
    """The states of a food that the words of ``text`` tell: dried, canned, chopped."""
    return _read_words(_plain_words(text)).states


def density(name: str, said: str = "") -> Weight | NoWeight:
    """Grams of one millilitre of a food, or why none is known.

    ``name`` may hold the state ("chopped onion"), ``said`` the rest of what was said of it ("finely
    chopped"). Figures: ``lexicons/tables/densities.tsv`` (USDA SR28).
    """
    found = _identify(name)
    if found is None:
        return NoWeight(f"no weight is known for {name}")
    food, beside = found
    words = _read_words((*beside, *_plain_words(said)))
    row = _choose(_rows("densities").get(food.food, []), words, easy=food.us == "cup")
    if isinstance(row, str):
        return NoWeight(f"{row} for {name}")
    count, _, unit = row["measure"].rpartition(" ")
    millilitres = convert_figure(Fraction(count or 1), unit, "millilitre", system="us")
    grams = Fraction(row["grams"])
    measure = f"{count} {unit}s" if count and Fraction(count) > 1 else f"{count or 'a'} {unit}"
    described = " ".join(filter(None, (food.food, row["state"] and f"({row['state']})")))
    doubt = f"; its own measures differ by {row['spread']} %" if row["spread"] else ""
    basis = f"{decimal(grams)} g {measure.replace('_', ' ')} of {described}: USDA SR28 {row['record']}{doubt}"
    stated = bool(row["state"]) and set(row["state"].split()) <= words.states
    return Weight(grams / millilitres, basis, stated)


def piece(name: str, unit: str, said: str = "") -> Weight | NoWeight:
    """Grams of one piece of a food (``unit`` "" for a plain count), or why none is known.

    Sizes are taken from ``name`` and ``said``; without one it is medium, for eggs large. Figures:
    ``lexicons/tables/pieces.tsv`` (USDA SR28).
    """
    for trial, counted in ((name, unit), (f"{name} {unit}", "")) if unit else ((name, ""),):
        found = _identify(trial)
        rows = (
            [row for row in _rows("pieces").get(found[0].food, []) if row["unit"] == counted] if found else []
        )
        if found and rows:
            sizes = _read_words((*found[1], *_plain_words(said))).sizes
            return _piece_row(found[0].food, rows, sizes)
    what = f"one {unit} of {name}" if unit else f"one {name}"
    return NoWeight(f"no weight is known for {what}")


def _piece_row(food: str, rows: list[Row], sizes: Sequence[str]) -> Weight | NoWeight:
    fitting = [row for row in rows if row["size"] in sizes] or [
        row for row in rows if row["default"] and (not sizes or not row["size"])
    ]
    if not fitting:
        return NoWeight(f"no weight is known for {' '.join(sizes)} {food}")
    row = fitting[0]
    count, grams = Fraction(row["count"]), Fraction(row["grams"])
    named = f"{row['unit']} of {food}" if row["unit"] else food
    what = f"{row['size']} {named}".strip()
    return Weight(grams / count, f"{decimal(grams)} g for {mixed(count)} {what}: USDA SR28 {row['record']}")


def _plain_words(text: str) -> tuple[str, ...]:
    """The words of ``text``, two that mean something together ("extra large") as one."""
    words: list[str] = []
    for word in split_name(text):
        pair = f"{words[-1]} {word}" if words else ""
        if pair in _weight_words():
            words[-1] = pair
        else:
            words.append(word)
    return tuple(words)


def _identify(name: str) -> tuple[FoodMeasure, tuple[str, ...]] | None:
    """The food of ``name`` and the words beside it; the longest run of its words that names one wins.

    Only words that are known to say something of the state, the size or nothing at all may be left over:
    "kosher salt" is not salt.
    """
    head, _, rest = name.partition(",")
    words, extra = _plain_words(head), _plain_words(rest)
    for kept, beside in _readings(words):
        measure = _foods().get(name_keys(" ".join(kept)))
        if measure is not None:
            return measure, (*beside, *extra)
    known = canonical(head) if head.strip() else ""
    measure = _foods().get(name_keys(known)) if known and known != head else None
    return (measure, extra) if measure is not None else None


def _readings(words: Sequence[str]) -> Iterator[tuple[tuple[str, ...], tuple[str, ...]]]:
    """The words as (name, words beside it): all as name, then without the known words, one kind at a time."""
    yield tuple(words), ()
    known = _weight_words()
    for roles in (
        {"neutral"},
        {"size"},
        {"size", "neutral"},
        {"cut", "size", "neutral"},
        {"state", "cut", "size", "neutral"},
    ):
        beside = tuple(word for word in words if word in known and known[word][0] in roles)
        if beside and len(beside) < len(words):
            yield tuple(word for word in words if word not in beside), beside


def _read_words(words: Iterable[str]) -> _Words:
    states, cuts, strict, sizes = set[str](), set[str](), set[str](), list[str]()
    known = _weight_words()
    for word in words:
        role, value = known.get(word, ("neutral", ""))
        plain = value.rstrip("*")
        if role == "size":
            sizes.append(plain)
        elif role in {"state", "cut"}:
            states.update(plain.split())
            if role == "cut":
                cuts.update(plain.split())
            elif value.endswith("*"):
                strict.add(plain)
    return _Words(frozenset(states), frozenset(cuts), frozenset(strict), tuple(sizes))


def _choose(rows: list[Row], words: _Words, *, easy: bool) -> Row | str:
    """The row for what was said, or why there is none.

    ``easy``: the food is scooped raw whatever becomes of it (sugar, milk): "boiled" is no state of it.
    """
    if not rows:
        return "no weight by volume is known"
    fitting = [row for row in rows if set(row["state"].split()) <= words.states]
    best = max((len(row["state"].split()) for row in fitting), default=0)
    fitting = [row for row in fitting if len(row["state"].split()) == best] if best else []
    fitting = fitting or _unsaid(rows)
    if not fitting:
        states = ", ".join(f"{row['grams']} g a {row['measure']} {row['state']}" for row in rows)
        return f"the weight depends on a state that was not said ({states.replace('_', ' ')})"
    row = fitting[0]
    has = set(row["state"].split())
    cut_rows = any(set(other["state"].split()) & _cut_states() for other in rows)
    kept_rows = any(set(other["state"].split()) & _RAW_STATES for other in rows)
    strict = words.strict if kept_rows or not easy else words.strict - {"cooked"}
    if strict - has or (cut_rows and words.cuts and not words.cuts & has):
        missing = ", ".join(sorted(strict - has or words.cuts))
        return f"no weight is known when {missing}"
    return row


def _unsaid(rows: list[Row]) -> list[Row]:
    """The row that holds where no state was said: the default, or any where all agree within 5 %."""
    default = [row for row in rows if row["default"]]
    weights = [_per_millilitre(row) for row in rows]
    return default or (rows[:1] if max(weights) <= min(weights) * _AGREE else [])


def _per_millilitre(row: Row) -> Fraction:
    count, _, unit = row["measure"].rpartition(" ")
    return Fraction(row["grams"]) / convert_figure(Fraction(count or 1), unit, "millilitre", system="us")


@cache
def _cut_states() -> frozenset[str]:
    return frozenset(
        state for role, states in _weight_words().values() if role == "cut" for state in states.split()
    )
