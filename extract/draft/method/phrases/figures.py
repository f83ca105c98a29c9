"""Heats, times and volumes in their place in a sentence."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from extract.measure.kitchen import print_amount, print_temperature
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from extract.model import Duration, Heat

CUP = Fraction("236.5882365")  # millilitres in a US cup, 1/16 of the gallon of 231 cubic inches of 25.4 mm
IN_WORDS = {(0.5, "hour"): "half an hour", (0.5, "minute"): "30 seconds"}
COUNTED = frozenset({"minutes", "hours", "seconds", "days"})
SMALLER = {"hour": ("minute", 60), "minute": ("second", 60), "day": ("hour", 24)}


def heat_words(heat: Heat, part: str = "") -> str:
    """A heat setting after its verb: "at 350 °F (180 °C)", "over a medium heat".

    ``part`` is where an internal temperature is taken, "" for the inside.
    """
    printed = print_temperature(heat)
    if heat.low is not None:
        return (
            f"until the {part or 'inside'} reaches {printed}" if heat.kind == "internal" else f"at {printed}"
        )
    if heat.kind == "oven":
        return f"in a {level_words(heat)} oven"
    return f"over a {level_words(heat)} heat"


def changed_heat(heat: Heat, duration: Duration | None, verb: str) -> str:
    """A heat changed while something cooks: "reduce the oven to 325 °F (160 °C) and bake for another hour"."""
    thing = "oil" if heat.kind == "oil" else "oven"
    told = f"{verb} the {thing} to {print_temperature(heat)}"
    work = "cook" if thing == "oil" else "bake"
    return f"{told} and {work} {duration_words(duration)}" if duration is not None else told


def level_words(heat: Heat) -> str:
    """A level without the words for the heat itself: "medium-high", "low"."""
    level = heat.level or heat.text
    kept = [word for word in level.lower().replace(",", " ").split() if word not in words("word for heat")]
    if kept == ["low", "medium"]:
        kept.reverse()
    return "-".join(kept) if len(kept) == 2 and kept[0] == "medium" else " ".join(kept) or level


def duration_words(duration: Duration, approximate: bool = False) -> str:
    """A time after its verb, ranges with an en dash: "for about 25–30 minutes", "overnight".

    ``approximate``: the cook said "about" or the like in other words than the time's own.
    """
    if duration.low is None:
        unit = duration.text.lower().rpartition(" ")[2]
        return f"for a few {unit}" if unit in COUNTED else duration.text
    said = duration.text.lower().split()
    about = (
        "about " if approximate or set(said) & words("roughly") else "another " if "another" in said else ""
    )
    about = "at least " if "least" in said else about
    return f"for {about}{span_words(duration)}"


def span_words(duration: Duration) -> str:
    """The figures of a time with their unit; parts of an hour in minutes."""
    assert duration.low is not None
    low = Fraction(duration.low).limit_denominator(120)
    high = Fraction(duration.high if duration.high is not None else duration.low).limit_denominator(120)
    unit = duration.unit
    if low == high and (float(low), unit) in IN_WORDS:
        return IN_WORDS[float(low), unit]
    if low < 1 and unit in SMALLER:
        smaller, times = SMALLER[unit]
        if (low * times).denominator == (high * times).denominator == 1:
            low, high, unit = low * times, high * times, smaller
    span = print_amount(low, high, "")
    return f"{span} {unit}" if high == 1 else f"{span} {unit}s"


def volume_words(millilitres: Fraction) -> str:
    """A worked-out volume in spoons and cups: "about 1/3 cup"."""
    return f"about {print_amount(millilitres / CUP, millilitres / CUP, 'cup', worked_out=True)}"
