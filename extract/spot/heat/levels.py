"""Levels of heat in words: "medium high heat", "down to low"."""

from __future__ import annotations

from functools import cache

from extract.lexicon import read_lexicon
from extract.spot.spans import HeatKind, HeatSetting
from extract.spot.words import BREAKS, Phrases, Words, phrases

TABLE = "heat_words"
NEARBY = 12
AHEAD = 7


def near(words: Words, place: int, role: str, *, ahead: bool = True) -> int:
    """How near the nearest word of a role stands: 0 for none, higher for nearer."""
    wanted: Phrases = phrases(TABLE, role)
    for distance in range(1, NEARBY + 1):
        if words.at(place - distance) in wanted or (
            ahead and distance < AHEAD and words.at(place + distance) in wanted
        ):
            return NEARBY + 1 - distance
    return 0


@cache
def levels() -> tuple[Phrases, dict[str, tuple[str, bool]]]:
    """The phrases of heat levels, and the level of each with whether it may stand alone."""
    rows = read_lexicon("heat_levels", columns=("words", "level", "alone"))
    return Phrases(row["words"] for row in rows), {
        r["words"]: (r["level"], r["alone"] == "yes") for r in rows
    }


def read_level(words: Words, place: int) -> HeatSetting | None:
    """The level that begins at ``place``, where the words are about heat."""
    known, table = levels()
    length = known.match(words, place)
    if not length:
        return None
    level, alone = table[" ".join(words.low[place : place + length])]
    end = place + length
    after = words.skip_break(end)
    if words.at(end) in phrases(TABLE, "heat") or (after > end and words.at(after) in ("heat", "flame")):
        end = (end if words.at(end) in phrases(TABLE, "heat") else after) + 1
    elif not (alone and _stands_alone(words, place, end)):
        return None
    kind: HeatKind = "oven" if words.at(end) == "oven" else "hob"
    return HeatSetting(place, end, kind, None, None, "", level, words.doc[place:end].text)


def _stands_alone(words: Words, place: int, end: int) -> bool:
    """ "on medium", "turn it up to high,", "well down, low,": no thing follows that it describes."""
    if _is_turned(words, place):
        return True
    after = words.at(end)
    ends = not after or not after[0].isalpha() or after in phrases("amount_words", "uncounted")
    if not ends:
        return False
    if phrases(TABLE, "before").ends_at(words, place, longest=2) < place:
        return True
    if words.at(place - 1) == "?" and "heat" in words.low[max(0, place - 5) : place]:
        return True
    if words.at(place - 1) not in BREAKS or after not in BREAKS:
        return False
    if end - place > 1:
        return True
    return any(near(words, place, role) for role in ("hob", "oil")) or words.at(place - 2) in (
        "up",
        "down",
        "cold",
        "heat",
    )


def _is_turned(words: Words, place: int) -> bool:
    """ "bring that well down low": whatever follows."""
    if words.at(place - 1) not in ("up", "down"):
        return False
    turning = phrases(TABLE, "turning")
    return any(word in turning for word in words.low[max(0, place - 6) : place - 1])
