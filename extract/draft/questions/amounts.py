"""Questions about ingredient lines: amounts not said, by feel, of no size; doubtful names."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from extract.draft.questions.words import article, food_weight, holds, is_many, question_words, quoted
from extract.measure.kitchen import amount_words
from extract.model import Amount, Dish, Ingredient, Question
from extract.spot.food_names import kinds_of

_ASIDE, _OPTIONAL, _BAKED = 0.3, 0.4, 1.2
_MOST = 95
_LEAST = 6  # below this a question is not worth the cook's breath


@dataclass(frozen=True, slots=True)
class Line:
    """An ingredient line where it stands: its component, and the food that goes in after it."""

    ingredient: Ingredient
    component: str
    following: str
    baked: bool


def line_questions(dish: Dish) -> Iterator[Question]:
    """Every question about the dish's ingredient lines."""
    for line in _lines(dish):
        yield from _about_amount(line)
        yield from _about_name(line)


def _lines(dish: Dish) -> Iterator[Line]:
    for component in dish.components:
        names = [line.name for line in component.ingredients]
        for place, ingredient in enumerate(component.ingredients):
            following = names[place + 1] if place + 1 < len(names) else ""
            baked = holds(f"{dish.title} {component.name}", "baked")
            yield Line(ingredient, component.name, following, baked)


def _about_amount(line: Line) -> Iterator[Question]:
    amount = line.ingredient.amount
    if amount is None:
        yield from _asked(line, "missing amount", "missing", _how_much(line))
    elif amount.unit in question_words("by feel"):
        yield from _asked(line, "vague amount", "vague", _by_feel(line, amount_words(amount)))
    elif line.ingredient.counted_in:
        yield from _asked(line, "vague amount", "vague", _by_feel(line, line.ingredient.counted_in))
    elif _size_is_open(line.ingredient, amount):
        yield from _asked(line, "size missing", "size", _what_size(line, amount))


def _asked(line: Line, kind: str, lack: str, text: str) -> Iterator[Question]:
    """The question, weighed by the food and its use; none where nobody would miss the answer."""
    food = line.ingredient
    weight = float(food_weight(food.name, lack))
    words = " ".join((food.preparation, food.note, line.component, *(said.text for said in food.said)))
    if holds(words, "aside"):
        weight *= _ASIDE
    if food.optional:
        weight *= _OPTIONAL
    if line.baked and lack != "size":
        weight *= _BAKED
    if weight >= _LEAST:
        said = food.said[:3]
        yield Question(
            kind=kind, about=food.name, text=text + quoted(said), weight=min(_MOST, round(weight)), said=said
        )


def _where(line: Line) -> str:
    return f"the {line.component}" if line.component else "the dish"


def _how_much(line: Line) -> str:
    name = line.ingredient.name
    ask = f"How many {name} go" if is_many(name) else f"How much {name} goes"
    before = f", before the {line.following}" if line.following and line.following != name else ""
    return f"{ask} into {_where(line)}{before}?"


def _by_feel(line: Line, words: str) -> str:
    return f"How much is {words} of {line.ingredient.name} in {_where(line)}, by weight or by spoon or cup?"


def _size_is_open(food: Ingredient, amount: Amount) -> bool:
    """Whether an amount counts pieces or packages whose size nobody said."""
    if amount.size is not None or amount.equivalents or amount.unit not in ("", *question_words("packaged")):
        return False
    words = " ".join((food.name, food.preparation, food.note, *(said.text for said in food.said)))
    return not holds(words, "size")


def _what_size(line: Line, amount: Amount) -> str:
    name = line.ingredient.name
    if amount.unit:
        return f"What does one {amount.unit} of {name} hold, by weight or volume?"
    if kinds_of(name) & {"meat", "poultry", "fish"}:
        verb = "do" if amount.high > 1 else "does"
        return f"What {verb} the {name} weigh?"
    if is_many(name):
        return f"What size are the {name}: large, medium or small?"
    return f"What size is {'each' if amount.high > 1 else 'the'} {name}: large, medium or small?"


def _about_name(line: Line) -> Iterator[Question]:
    """A food whose name was mended, or that no lexicon knows."""
    food = line.ingredient
    if food.heard and food.heard != food.name:
        text = f"The recording has '{food.heard}', taken for {food.name}. Is that the food?"
        yield Question(kind="mended mishearing", about=food.name, text=text, said=food.said[:1])
    elif not food.known:
        text = f"What is {article(food.name)}? The program does not know it as a food.{quoted(food.said)}"
        yield Question(kind="unknown food", about=food.name, text=text, said=food.said[:1])
