"""The words in which a check says what each side says."""

from __future__ import annotations

from collections.abc import Iterable

from extract.measure.kitchen import amount_words, print_temperature
from extract.model import Amount, Duration, Evidence, Heat, Ingredient
from extract.publish.words import share_words


def amount_text(amount: Amount | None) -> str:
    """An amount in short words, "" where there is none."""
    return "" if amount is None else amount_words(amount)


def line_text(line: Ingredient) -> str:
    """An ingredient line in short words: "2 cloves garlic"."""
    return f"{amount_text(line.amount)} {line.name}".strip()


def heat_text(heat: Heat) -> str:
    """A heat setting as that side gave it, on every scale it gave."""
    if heat.low is None:
        return f"{heat.level} heat" if heat.level else heat.text
    texts = [setting.text for setting in (heat, *heat.equivalents)]
    return " / ".join(texts) if all(texts) else print_temperature(heat)


def duration_text(duration: Duration) -> str:
    """A length of time in that side's own words, or in figures where they are not kept."""
    if duration.text or duration.low is None or duration.high is None:
        return duration.text
    low, high = f"{duration.low:g}", f"{duration.high:g}"
    span = low if low == high else f"{low}–{high}"
    return f"{span} {duration.unit}{'s' if duration.high != 1 else ''}"


def share_text(fraction: float | str, of: str) -> str:
    """A share in words: "half of the dip"."""
    words = share_words(fraction)
    return f"{words[:1].lower()}{words[1:]} the {of}".strip()


def first_moment(said: Iterable[Evidence]) -> float | None:
    """When a value was first said, in seconds; None where no evidence is kept."""
    return min((evidence.start for evidence in said), default=None)
