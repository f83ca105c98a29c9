"""Which lengths of time belong to the method, and which to the talk."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from extract.spot.numbers.values import ARTICLES, number_words
from extract.spot.spans import Duration
from extract.spot.words import Words, phrases

if TYPE_CHECKING:
    from spacy.tokens import Doc

TABLE = "time_words"
SECONDS = {"second": 1, "minute": 60, "hour": 3600, "day": 86400, "week": 604800}
NEARBY = 14
STORAGE_REACH = 10
MEAL_REACH = 8


def is_cooking_time(doc: Doc, duration: Duration, words: Words | None = None) -> bool:
    """Whether a time belongs to the method: it is no date, age, journey or promise to the viewer."""
    words = words or Words.window(doc, duration.start - NEARBY - 2, duration.end + NEARBY + 2)
    if duration.unit not in SECONDS or _is_named_day(words, duration):
        return False
    before, after = phrases(TABLE, "talk before"), phrases(TABLE, "talk after")
    if before.ends_at(words, duration.start, longest=3) < duration.start or after.match(words, duration.end):
        return False
    if words.at(duration.end) == "ago":
        return near_cooking(words, duration.start)
    if words.at(duration.start - 1) in ("every", "each") or _is_storage(words, duration):
        return False
    if _is_in_a_name(words, duration) or _is_whole_meal(words, duration):
        return False
    return not _is_figure_of_speech(words, duration)


def without_recaps(words: Words, durations: Sequence[Duration]) -> list[Duration]:
    """The times without those that only look back: "that's had its half hour" after "roast it for half an hour".

    A look back at a time that was never told before stays: it is how the time is told.
    """
    told: set[tuple[Fraction, Fraction]] = set()
    kept: list[Duration] = []
    for duration in durations:
        if duration.low is None or duration.high is None:
            kept.append(duration)
            continue
        length = (duration.low * SECONDS[duration.unit], duration.high * SECONDS[duration.unit])
        if length not in told or not looks_back(words, duration):
            kept.append(duration)
        told.add(length)
    return kept


def looks_back(words: Words, duration: Duration) -> bool:
    """Whether the words just before a time say that it is over."""
    return phrases(TABLE, "over before").ends_at(words, duration.start) < duration.start


def near_cooking(words: Words, place: int) -> bool:
    """Whether a word of cooking stands near."""
    near = words.low[max(0, place - NEARBY) : place + NEARBY]
    return any(word in phrases(TABLE, "cooking") for word in near)


def _is_storage(words: Words, duration: Duration) -> bool:
    """ "it keeps for three days": how long the dish lasts, not how long it takes."""
    near = words.low[max(0, duration.start - STORAGE_REACH) : duration.start]
    return duration.unit == "day" and any(word in phrases(TABLE, "storage") for word in near)


def _is_named_day(words: Words, duration: Duration) -> bool:
    """ "the next day", "one day", "twice a week": a date, unless it says how long."""
    if duration.unit != "day" or duration.low is None:
        return False
    before = words.at(duration.start - 1)
    if before in phrases(TABLE, "named"):
        return True
    single = duration.end - duration.start == 2 and words.at(duration.start) in (*ARTICLES, "one")
    return single and before not in phrases(TABLE, "lasting")


def _is_in_a_name(words: Words, duration: Duration) -> bool:
    """ "a fifteen minute soup", "two minute noodles": the time names a thing, unless the thing is a wait."""
    unit = words.at(duration.end - 1)
    if duration.low is None or duration.low <= 1 or unit not in SECONDS or duration.end >= len(words):
        return False
    after = words.doc[duration.end]
    return after.pos_ in ("NOUN", "PROPN", "ADJ") and after.lower_ not in phrases(TABLE, "cooking")


def _is_whole_meal(words: Words, duration: Duration) -> bool:
    """ "you can have this supper done in about thirty minutes": praise of the recipe."""
    place = phrases("amount_words", "about").ends_at(words, duration.start)
    if words.at(place - 1) not in ("in", "under", "within"):
        return False
    near = words.low[max(0, place - MEAL_REACH) : place]
    return any(word in phrases(TABLE, "meal") for word in near)


def _is_figure_of_speech(words: Words, duration: Duration) -> bool:
    """ "wait a second", "give me a minute"."""
    if duration.low != 1 or words.at(duration.start) not in ARTICLES:
        return False
    if words.at(duration.start - 1) in number_words():
        return True
    if words.at(duration.end - 1) == "second" or words.at(duration.start - 1) in ("wait", "me", "in", "hold"):
        return True
    return words.at(duration.start - 1) == "just" and words.at(duration.start - 2) not in phrases(
        TABLE, "lasting"
    )
