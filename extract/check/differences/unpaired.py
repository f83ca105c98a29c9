"""What is found of an ingredient line that only one side has."""

from __future__ import annotations

from extract.check.differences.telling import place_of, plain_name, texts_of
from extract.check.pairs.converted import is_by_feel
from extract.check.pairs.dishes import Sides
from extract.check.pairs.foods import LIKELY, alike
from extract.check.pairs.hearing import rejoined
from extract.check.pairs.measures import compare
from extract.check.pairs.pairing import Line, Pair, Pairing
from extract.check.report import Finding, Place, Weight
from extract.check.words import first_moment, line_text
from extract.check.written.lines.tokens import tokens_of
from extract.check.written.lines.words import words_of
from extract.model import Ingredient
from extract.spot.names.foods import canonical, kinds_of, name_keys
from extract.spot.names.identity import sameness

_SEASONING = frozenset(("herb", "spice", "condiment"))
_MADE = frozenset(("made", "dish", "generic", "mixture"))


def said_only(sides: Sides, pairing: Pairing, line: Line) -> Finding:
    """A line that the written list lacks: there under another heading after all, or missing."""
    ingredient, name, text = line.ingredient, line.names.main, line_text(line.ingredient)
    pair = next((pair for pair in pairing.pairs if _is_choice_of(line, pair)), None)
    if pair is not None:
        return place_of(line, pair.written[0]).agree(name, (text, texts_of(pair)[1]), "written as a choice")
    pair = next((pair for pair in pairing.pairs if _is_of_one_food(name, pair.said[0].names.main)), None)
    if pair is not None and (ingredient.amount is None or is_by_feel(ingredient.amount)):
        place = place_of(line, pair.written[0])
        return place.agree(name, (text, texts_of(pair)[1]), "one more use of a food that is listed")
    if pair is not None and _is_said_again(line, pair):
        return place_of(line, pair.written[0]).agree(name, (text, texts_of(pair)[1]), "said more than once")
    number = sides.line_that_names(name, in_lines=True)
    if number is not None:
        place = Place(first_moment(ingredient.said), number)
        return place.agree(name, (text, "within another line"), "named within another line")
    number = sides.line_that_names(name)
    if number is not None and (ingredient.amount is None or canonical(name) == "water"):
        place = Place(first_moment(ingredient.said), number)
        return place.agree(name, (text, "in the method"), "named in the method")
    about, weight = plain_name(rejoined(name) or name), _weight_of_missing(sides, line)
    return place_of(line, None).differ("missing", about, (text, ""), weight)


def _is_of_one_food(name: str, other: str) -> bool:
    return sameness(name, other) in ("same", "sort") or sameness(other, name) == "same"


def _weight_of_missing(sides: Sides, line: Line) -> Weight:
    """How much a said line that is not written weighs: by its amount, whether it may be left out."""
    amount, name = line.ingredient.amount, line.names.main
    served = line.component.lower().startswith(("to ", "for "))  # "to serve": a thing beside the dish
    if line.ingredient.optional and (amount is None or is_by_feel(amount) or served):
        return "wording"
    if is_by_feel(amount) and canonical(name) == "water":
        return "wording"
    measured = amount is not None and amount.unit != "" and not is_by_feel(amount)
    if not line.ingredient.known and not kinds_of(name) and not measured:
        return "wording"  # hardly a food
    doubtful = not line.ingredient.known or (bool(kinds_of(name)) and kinds_of(name) <= _MADE)
    if (amount is None or doubtful) and sides.method_names_foods and not sides.is_used(name):
        return "wording"
    small = amount is None or line.ingredient.optional
    return "worth a look" if small else "changes the dish"


def _is_said_again(line: Line, pair: Pair) -> bool:
    """Whether a line gives the amount of a paired line once more, perhaps in another measure, for one use."""
    amount, written = line.ingredient.amount, pair.written[0].ingredient.amount
    if amount is None or written is None or (line.component and line.component != pair.said[0].component):
        return False
    return compare(amount, written, line.names.main).same


def _is_choice_of(line: Line, pair: Pair) -> bool:
    names = [name for written in pair.written for name in written.names.instead]
    return any(alike(line.names.main, name) >= LIKELY for name in names)


def written_only(sides: Sides, pairing: Pairing, line: Line) -> Finding:
    """A line that no said line answers: heard somewhere all the same, or never said."""
    ingredient, name, text = line.ingredient, line.names.main, line_text(line.ingredient)
    pair = next((pair for pair in pairing.pairs if _is_of_one_food(name, pair.said[0].names.main)), None)
    if ingredient.amount is None and pair is not None:
        place = place_of(pair.said[0], line)
        return place.agree(name, (texts_of(pair)[0], text), "one more use of a food that was said")
    place = place_of(None, line)
    if sides.was_heard(name):
        place = Place(sides.moment_of(name), place.line)
        return place.agree(name, ("named in the recording", text), "named while cooking")
    elsewhere = next(
        (line for line in sides.lines_elsewhere(name) if _is_same_amount(line, ingredient)), None
    )
    if elsewhere is not None:  # the cut between two dishes may be wrong
        place = Place(first_moment(elsewhere.said), place.line)
        return place.differ(
            "extra", plain_name(name), (f"{line_text(elsewhere)}, in another dish", text), "wording"
        )
    made = next((part for part in sides.made_names if set(name_keys(part)) <= set(name_keys(name))), "")
    if any(name.lower().endswith(left) for left in words_of("left from cooking")):
        return place.agree(name, ("", text), "left from the cooking")
    told = f" {' '.join(tokens_of(ingredient.written.text)).lower()} " if ingredient.written else ""
    if any(f" {words} " in told for words in words_of("made above")):
        return place.agree(name, ("", text), "made in the recipe")
    if made and ingredient.amount is None:
        return place.agree(name, (made, text), "made in the dish")
    return place.differ("extra", plain_name(name), ("", text), _weight_of_extra(line))


def _is_same_amount(one: Ingredient, other: Ingredient) -> bool:
    if one.amount is None or other.amount is None:
        return False
    return compare(one.amount, other.amount, other.name).same


def _weight_of_extra(written: Line) -> Weight:
    """How much a written line that was never said weighs: a seasoning, or what stands beside the dish, is small."""
    line = written.ingredient
    beside = written.component.lower().startswith(("to ", "for ")) or "serv" in line.note
    if line.amount is None and (kinds_of(line.name) & _SEASONING or beside):
        return "wording"
    return "worth a look" if line.amount is None or line.optional else "changes the dish"
