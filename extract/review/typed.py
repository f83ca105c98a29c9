"""What people type into a field, read as values of the draft: amounts, yields, batches, times."""

from __future__ import annotations

import re
from fractions import Fraction

from extract.check.written.lines.amounts import read_quantity
from extract.check.written.lines.figures import read_figure
from extract.check.written.lines.line import amount_of
from extract.check.written.lines.tokens import tokens_of
from extract.check.written.lines.units import read_unit
from extract.check.written.yields import read_yield
from extract.errors import CardwrightError
from extract.lexicon import read_lexicon
from extract.measure.kitchen import amount_words
from extract.model import Amount, Batch, Yield
from extract.publish.words import clock

_CLOCK = re.compile(r"(?:(\d+):)?(\d{1,3}):(\d{1,2}(?:\.\d+)?)|(\d+(?:\.\d+)?)\s*s?")
_AND_A_HALF = re.compile(r"^(?:(an?|one)\s+|(.+?)\s+)([a-z]+) and (?:a |one )?(half|quarter)\b\s*(.*)$")
_PARTS = {"half": "1/2", "quarter": "1/4"}
_MOST = 1_000_000


def read_amount(text: str) -> tuple[Amount | None, str]:
    """The amount that ``text`` says and what is left as a note: "2 tbsp", "½", "2-3", "a pinch", "to taste".

    Nothing typed is no amount. Raises CardwrightError where the words say none that can be understood.
    """
    wanted = " ".join(text.split()).lower()
    if not wanted:
        return None, ""
    if wanted in words_for("no measure"):
        return None, wanted
    tokens = tokens_of(_joined_half(wanted))
    quantity = read_quantity(tokens)
    if quantity is None:
        unit = read_unit(tokens, 0)
        if unit is not None and unit[1] == len(tokens):
            return Amount(low=float(unit[0].factor), high=float(unit[0].factor), unit=unit[0].name), ""
    if quantity is None or quantity.end < len(tokens) or quantity.high > _MOST:
        problem = f'"{text.strip()}" is not understood as an amount'
        raise CardwrightError(problem, remedy='such as 1 1/2 cups, ½, 2-3, 2 tbsp, a pinch, or "to taste"')
    if quantity.high < quantity.low:
        problem = f'"{text.strip()}" runs downwards'
        raise CardwrightError(problem, remedy="put the smaller figure first")
    return amount_of(quantity), quantity.note


def words_for(use: str) -> frozenset[str]:
    """The words that a reviewer types for one use: "no measure", "as it is"."""
    rows = read_lexicon("review_words", columns=("use", "words"))
    return frozenset(row["words"] for row in rows if row["use"] == use)


def _joined_half(text: str) -> str:
    """ "a cup and a half" as "1 1/2 cup"; anything else as it is."""
    found = _AND_A_HALF.match(text)
    if found is None:
        return text
    return f"{found[2] or 1} {_PARTS[found[4]]} {found[3]} {found[5]}".strip()


def spoken_line(words: str) -> str:
    """Words of the talk in the order of a written line: "a pound and a half of leeks" is "1 1/2 pound of leeks"."""
    return _joined_half(" ".join(words.split()).lower())


def amount_text(amount: Amount | None) -> str:
    """The amount as it stands in its field, so that ``read_amount`` gives it back; "" for none."""
    if amount is None:
        return ""
    return amount_words(amount.model_copy(update={"converted": None}))


def read_made(text: str) -> Yield | None:
    """What a dish makes, from "4-6", "serves 4", "24 pies"; None for nothing typed. Raises CardwrightError."""
    if not text.strip():
        return None
    found = read_yield(text) or read_yield(text, assume=True)
    if found is None or found.high > _MOST:
        problem = f'"{text.strip()}" is not understood as what it makes'
        raise CardwrightError(problem, remedy="such as 4, serves 4-6, 24 pies")
    return found.model_copy(update={"unit": found.unit or "servings"})


def made_text(made: Yield | None) -> str:
    """What a dish makes, as it stands in its field."""
    if made is None:
        return ""
    low, high = f"{made.low:g}", f"{made.high:g}"
    return f"{low if low == high else f'{low}-{high}'} {made.unit}".strip()


def read_factor(text: str) -> float | None:
    """A batch as a multiple of the normal one, from "2", "1/2", "double"; None for nothing or 1."""
    named = {"double": Fraction(2), "half": Fraction(1, 2), "triple": Fraction(3)}
    wanted = text.strip().lower()
    if not wanted:
        return None
    tokens = tokens_of(wanted)
    figure = read_figure(tokens, 0)
    value = named.get(wanted)
    if value is None and figure is not None and figure.end == len(tokens) and figure.low == figure.high:
        value = figure.low
    if value is None or not 0 < value <= 1000:
        problem = f'"{text.strip()}" is not understood as a batch'
        raise CardwrightError(problem, remedy="such as 2 for a double batch, 1/2 for a half one")
    return None if value == 1 else float(value)


def batch_text(batch: Batch | None) -> str:
    """A batch as it stands in its field."""
    return "" if batch is None else f"{batch.factor:g}"


def read_clock(text: str) -> float:
    """Seconds from "3:42", "1:03:42" or plain seconds. Raises CardwrightError."""
    found = _CLOCK.fullmatch(text.strip())
    if found is None:
        problem = f'"{text.strip()}" is no time in the recording'
        raise CardwrightError(problem, remedy="such as 3:42 or 1:03:42")
    if found[4]:
        return float(found[4])
    return int(found[1] or 0) * 3600 + int(found[2]) * 60 + float(found[3])


def clock_text(seconds: float) -> str:
    """A moment as it stands in its field."""
    return clock(seconds)
