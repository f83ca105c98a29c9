"""Questions about ingredient lines: amounts not said, spoons that are no measure, packages of no size, doubtful names.

Only what would change the page is asked: not the size of every onion, not a pinch, not what another line of the dish
measures already, not the pepper that everyone adds to taste.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from rapidfuzz import fuzz

from extract.draft.questions.lines import Line, by_part, lines_of
from extract.draft.questions.words import (
    food_weight,
    holds,
    is_many,
    is_to_taste,
    listed,
    once,
    question_words,
)
from extract.measure.kitchen import amount_words
from extract.model import Amount, Dish, Ingredient, Question
from extract.spot.names.foods import ends_a_name, kinds_of

_LAST = 0.5  # put on when all the rest is made
_ASIDE, _OPTIONAL, _ELSEWHERE, _UNUSED, _BAKED = 0.3, 0.4, 0.3, 0.6, 1.3
_BARE, _OFTEN = (
    0.6,
    0.5,
)  # named without "some" or "a little"; named so often that its amount may have been missed
_MENTIONS = 3
_SURE = 2  # a word that was heard so often alike was heard rightly
_STANDARD = frozenset(("leavening", "alcohol", "liquid", "condiment", "spice"))  # packages of one usual size
_LOOSE = 0.5  # an amount by feel in a dish whose proportions do not decide
_MOST = 95
_LEAST = 8  # below this a question is not worth the cook's breath
_ALONE = 44  # from this weight on a food is asked about by itself, below it with the others of its part
_NAMED = 35  # from this weight on a food that was only named decides, and is no seasoning
_TOGETHER = 6  # so many foods can be asked for in one breath
_PLAINLY, _UNLIKE = 70, 60  # words this alike are one word misspelt by the recogniser, which needs no asking
_FAR, _NEAR = 55, 31  # weights of a name mended far from the words, and of one mended near them
_SEASONING = frozenset(("spice", "herb"))
_FLESH = frozenset(("meat", "poultry", "fish"))
_SALT, _PACKAGE, _WHOLE = 58, 36, 40
_FEW = 2
_BRIEF = 7


def line_questions(dish: Dish, before: Sequence[Dish] = ()) -> Iterator[Question]:
    """Every question about the ingredient lines; no name is asked about that one of the dishes ``before`` has."""
    lines = lines_of(dish)
    for part in by_part(lines):
        yield from _missing([line for line in part if line.food.amount is None and line.food.known])
    for line in lines:
        yield from _about_amount(line)
    yield from _sizes(lines)
    told = {line.name for other in before for part in other.components for line in part.ingredients}
    yield from _names([line for line in lines if line.food.name not in told])


def _missing(lines: Sequence[Line]) -> Iterator[Question]:
    """How much of the foods of one part: of those that decide and that the cook spoke of as some amount one by one,
    of those only named together, and of the seasonings together."""
    weighed = [(line, _weight(line, "missing")) for line in lines]
    alone = [(line, weight) for line, weight in weighed if weight >= _ALONE and line.told]
    others = [(line, weight) for line, weight in weighed if weight >= _LEAST and (line, weight) not in alone]
    named = [(line, weight) for line, weight in others if weight >= _NAMED]
    small = [(line, weight) for line, weight in others if weight < _NAMED]
    for line, weight in alone:
        yield _ask("missing amount", [line], weight, _how_much(line))
    for group in (named, small):
        for first in range(0, len(group), _TOGETHER):
            together = [line for line, _ in group[first : first + _TOGETHER]]
            yield _ask("missing amount", together, max(w for _, w in group), _of_each(together))


def _of_each(lines: Sequence[Line]) -> str:
    names = once(line.food.name for line in lines)
    return (
        _how_much(lines[0])
        if len(names) == 1
        else f"How much of each goes {lines[0].where}: {listed(names)}?"
    )


def _weight(line: Line, lack: str) -> int:
    """What the lack of an amount can spoil, by the food and its use."""
    food = line.food
    if is_to_taste(food.name):
        return _SALT if lack == "missing" and line.salted and not line.elsewhere else 0
    weight = float(food_weight(food.name, lack))
    for holds_true, factor in (
        (line.aside, _ASIDE),
        (food.optional, _OPTIONAL),
        (line.elsewhere, _ELSEWHERE),
        (lack == "missing" and line.last, _LAST),
        (not line.used, _UNUSED),
        (line.baked and not kinds_of(food.name) & _SEASONING, _BAKED),
        (lack == "missing" and not line.told, _BARE),
        (lack == "missing" and len(food.said) >= _MENTIONS, _OFTEN),
    ):
        weight *= factor if holds_true else 1
    return min(_MOST, round(weight))


def _ask(kind: str, lines: Sequence[Line], weight: int, text: str) -> Question:
    said = [evidence for line in lines for evidence in line.food.said[:1]]
    about = listed(once(line.food.name for line in lines))
    return Question(kind=kind, about=about, part=lines[0].part, text=text, weight=weight, said=said)


def _how_much(line: Line) -> str:
    name = line.food.name
    ask = f"How many {name} go" if is_many(name) else f"How much {name} goes"
    return f"{ask} {line.where}?"


def _about_amount(line: Line) -> Iterator[Question]:
    """An amount that nobody can measure after, where the proportions decide."""
    food, amount = line.food, line.food.amount
    weight = _weight(line, "vague")
    weight = weight if line.baked else round(weight * _LOOSE)
    if amount is None or weight < _LEAST:
        return
    if food.counted_in:
        text = (
            f"What is meant by {food.counted_in} of {food.name}: teaspoons, tablespoons, or how many grams?"
        )
        yield _ask("vague amount", [line], weight, text)
    elif amount.unit in question_words("by feel"):
        text = f"How much is {amount_words(amount)} of {food.name}?"
        yield _ask("vague amount", [line], weight, text)


def _sizes(lines: Sequence[Line]) -> Iterator[Question]:
    """Packages of no size, all in one question, and the weight of a whole bird, joint or fish."""
    packed: dict[str, Line] = {}
    for line in lines:
        food, amount = line.food, line.food.amount
        if amount is None or food.optional or _is_sized(food, amount) or kinds_of(food.name) & _STANDARD:
            continue
        if amount.unit in question_words("packaged"):
            packed.setdefault(food.name, line)
        elif _is_whole(food, amount):
            verb = "do" if amount.high > 1 else "does"
            text = f"How much {verb} the {food.name} weigh?"
            yield _ask("size missing", [line], _lessened(line, _WHOLE), text)
    if packed:
        weight = max(_lessened(line, _PACKAGE) for line in packed.values())
        things = listed([_package(line) for line in packed.values()])
        yield _ask("size missing", list(packed.values()), weight, f"How much is in {things}?")


def _is_whole(food: Ingredient, amount: Amount) -> bool:
    """Whether a count is of whole birds, joints or fish, of which one weighs twice another."""
    few = amount.unit == "" and amount.high <= _FEW
    return few and bool(kinds_of(food.name) & _FLESH) and not holds(food.name, "portioned")


def _package(line: Line) -> str:
    """The package in the cook's words, "“a bottle of cider”", where they are few."""
    said = " ".join(next((each.text for each in line.food.said), "").split())
    amount = line.food.amount
    unit = amount.unit if amount is not None else ""
    return f"“{said}”" if said and len(said.split()) <= _BRIEF else f"the {unit} of {line.food.name}"


def _is_sized(food: Ingredient, amount: Amount) -> bool:
    """Whether the size of a piece or package is told, or the food is measured another way as well."""
    return bool(amount.size or amount.equivalents) or any(letter.isdigit() for letter in food.note)


def _lessened(line: Line, weight: int) -> int:
    return round(weight * (1 if line.used else _UNUSED))


def _names(lines: Sequence[Line]) -> Iterator[Question]:
    """Foods that no lexicon knows, each name once, and all those whose name was mended far from the words."""
    mended: dict[str, Line] = {}
    unknown: dict[str, Line] = {}
    for line in lines:
        food = line.food
        if food.heard and _likeness(food.heard, food.name) < _PLAINLY:
            mended.setdefault(food.name, line)
        elif not food.known and len(food.said) < _SURE and _is_strange(food.name):
            unknown.setdefault(food.name, line)
    if unknown:
        found = list(unknown.values())
        names = [f"“{name}”" for name in unknown]
        where = found[0].where if len({line.where for line in found}) == 1 else "into the dish"
        what = (
            f"What is {names[0]}: is that the right word"
            if len(names) == 1
            else f"Are {listed(names)} the right words"
        )
        weight = _FAR if any(line.used or line.food.amount is not None for line in found) else _LEAST
        yield _ask("unknown food", found, weight, f"{what} for what goes {where}?")
    if mended:
        found = list(mended.values())
        names = [f"{name} for “{line.food.heard}”" for name, line in mended.items()]
        least = min(_likeness(line.food.heard, name) for name, line in mended.items())
        weight = _FAR if least < _UNLIKE else _NEAR
        yield _ask("mended mishearing", found, weight, f"Was this heard rightly: {listed(names)}?")


def _is_strange(name: str) -> bool:
    """Whether no word of a name is a food, nor its last a part of one, which was heard rightly: "neck", "leaves"."""
    return not any(map(kinds_of, name.split())) and not ends_a_name(name.split()[-1])


def _likeness(heard: str, name: str) -> float:
    """From 0 to 100, how alike the words heard are to the name, or to its last word."""
    return max(fuzz.ratio(heard.lower(), each) for each in (name.lower(), name.lower().split()[-1]))
