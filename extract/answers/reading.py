"""Reading what a person answers: an amount, a heat, a time, a yield. No language model is loaded for it."""

from __future__ import annotations

import re
from dataclasses import dataclass

from extract.check.written.lines.amounts import read_quantity
from extract.check.written.lines.line import amount_of, read_line
from extract.check.written.lines.tokens import joined, tokens_of
from extract.check.written.method.plain_doc import as_doc
from extract.check.written.method.settings import duration_of, heat_of, one_a_setting
from extract.check.written.yields import read_yield
from extract.draft.questions.words import question_words
from extract.model import Amount, Duration, Heat, Ingredient, Size, Yield
from extract.spot.heat.find import find_heat
from extract.spot.names.foods import canonical, name_keys
from extract.spot.times.find import find_durations
from extract.spot.words import Words


@dataclass(frozen=True, slots=True)
class Told:
    """An amount that was answered, and what words stand beside it; ``each``: it holds for every food asked about."""

    amount: Amount
    beside: str = ""
    each: bool = False

    @property
    def size(self) -> Size | None:
        """The amount as the size of one piece or package, where it is a measure."""
        if self.amount.size is not None:
            return self.amount.size
        if not self.amount.unit:
            return None
        return Size(low=self.amount.low, high=self.amount.high, unit=self.amount.unit)


def read_amount(text: str) -> Told | None:
    """The amount that an answer begins with ("2 teaspoons, heaped"), None where it begins with none."""
    tokens = tokens_of(text)
    start = next((at for at, token in enumerate(tokens) if token.lower() not in question_words("lead")), 0)
    found = read_quantity(tokens, start)
    if found is None or (not found.unit and tokens[start].lower() in question_words("article")):
        return None  # "a dollop": one of something that is no measure
    rest = [token for token in tokens[found.end :] if token.lower() not in ("of", "each")]
    each = found.each or "each" in [token.lower() for token in tokens[found.end :]]
    return Told(amount_of(found), joined(rest).strip(" ,;.()"), each)


def amount_for(text: str, name: str) -> Told | None:
    """The amount that an answer on several foods gives of one: of the nutmeg in "1 tsp cinnamon, a pinch of nutmeg"."""
    for piece in re.split(r"[;,\n]|\band\b", text):
        last = name_keys(name)[-1:]
        words = piece.split()
        tails = (
            [" ".join(words[start:]) for start in range(len(words))]
            if last and last[0] in name_keys(piece)
            else []
        )
        by_word = next((told for tail in tails if (told := read_amount(tail)) is not None), None)
        if by_word is not None and by_word.amount.unit == last[0]:  # "3 cloves", of cloves
            return Told(by_word.amount.model_copy(update={"unit": ""}))
        for line in read_line(piece):
            if line.amount is not None and line.name and names_food(line, name):
                return Told(line.amount)
        if by_word is not None:
            return Told(by_word.amount)
    return None


def read_line_of(text: str) -> Ingredient | None:
    """The one food of an answer, with its amount where one is given: "It's loroco, a handful"."""
    words = text.split()
    start = next((at for at, word in enumerate(words) if word.lower() not in question_words("lead")), 0)
    name, _, rest = " ".join(words[start:]).strip(" .\"'“”").partition(",")
    found = read_line(name)
    if not found or not found[0].name:
        return None
    told = read_amount(rest) if rest else None
    amount = found[0].amount or (told.amount if told else None)
    return found[0].model_copy(update={"amount": amount, "written": None})


def names_food(line: Ingredient, name: str) -> bool:
    """Whether a line read from an answer is of the food ``name``, going by its names and by the last word of either."""
    mine, asked = name_keys(line.name), name_keys(name)
    if canonical(line.name) == canonical(name):
        return True
    return bool(mine) and bool(asked) and (mine[-1] == asked[-1] or mine == asked[: len(mine)])


def read_heat(text: str) -> Heat | None:
    """The oven setting of an answer, with its equivalents; a bare figure is one of the oven."""
    for words in (text, f"oven at {text}"):
        tokens = tokens_of(words)
        doc = as_doc(tokens)
        found = one_a_setting(tokens, find_heat(doc, Words.of(doc)))
        if found:
            return heat_of(found[0]).model_copy(update={"kind": "oven", "text": text})
    return None


def read_scale(text: str) -> str:
    """The scale an answer names (degF, degC or gas_mark), "" where it names none."""
    words = [token.lower() for token in tokens_of(text)]
    found = (unit for word in words for unit in ("degC", "degF", "gas_mark") if word in question_words(unit))
    return next(found, "")


def read_fan(text: str) -> bool | None:
    """Whether the oven is a fan oven, None where the answer does not speak of it."""
    words = [token.lower() for token in tokens_of(text)]
    if not any(word in question_words("fan") for word in words):
        return None
    return not any(word in question_words("without") for word in words)


def read_time(text: str) -> Duration | None:
    """The time of an answer: "25 to 30 minutes"."""
    tokens = tokens_of(text)
    doc = as_doc(tokens)
    found = find_durations(doc, Words.of(doc))
    return duration_of(found[0]) if found else None


def read_until(text: str) -> str:
    """The sign of doneness of an answer, what stands after "until"; "" where there is none."""
    words = text.split()
    at = next((place for place, word in enumerate(words) if word.lower() in question_words("until")), None)
    return " ".join(words[at + 1 :]).rstrip(".") if at is not None else ""


def read_made(text: str) -> Yield | None:
    """What an answer says the dish makes: "4 to 6", "12 scones"; a bare number is of servings."""
    words = text.split()
    for start in range(len(words)):
        found = read_yield(" ".join(words[start:]), assume=True)
        if found is not None and words[start].lower() not in question_words("article"):
            return found.model_copy(update={"unit": found.unit or "servings"})
    return None


def says(text: str, role: str) -> bool:
    """Whether an answer begins with a word of one role: "yes", "no"."""
    first = tokens_of(text)[:1]
    return bool(first) and first[0].lower() in question_words(role)


def holds_word(text: str, role: str) -> bool:
    """Whether an answer holds a word of one role anywhere."""
    return any(token.lower() in question_words(role) for token in tokens_of(text))
