"""What a dish makes and whether it was made in another batch than the normal one."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

from extract.lexicon import read_lexicon
from extract.spot.amounts_lead import skip_sizes
from extract.spot.numbers import read_number
from extract.spot.numbers_values import read_value
from extract.spot.spans import Count, Number
from extract.spot.units import read_unit
from extract.spot.words import BREAKS, Words, phrases

if TYPE_CHECKING:
    from spacy.tokens import Doc

TABLE = "count_words"
POSSIBLE_REACH = 4


def find_counts(doc: Doc, words: Words | None = None) -> tuple[list[Count], list[Count]]:
    """The yields and the batch factors that the talk states, each list in order.

    A batch is a ``Count`` of unit "batch": 2 for a double one, 1/2 for a half. "You can double it" is none.
    """
    words = words or Words.of(doc)
    yields: list[Count] = []
    batches: list[Count] = []
    for place in range(len(words)):
        if (made := _yield(words, place)) is not None and not (yields and made.start < yields[-1].end):
            yields.append(made)
        if (batch := _batch(words, place)) is not None and not (batches and batch.start < batches[-1].end):
            batches.append(batch)
    return yields, batches


def _yield(words: Words, place: int) -> Count | None:
    for role in ("feeds", "makes", "states"):
        if length := phrases(TABLE, role).match(words, place):
            return _stated(words, place, place + length, role)
    return None


def _stated(words: Words, start: int, place: int, role: str) -> Count | None:
    place += phrases("amount_words", "about").match(words, place)
    place += words.at(place) in BREAKS and role == "makes"
    number = read_number(words, place)
    if number is None or number.low < 1 or number.low.denominator > 1 or number.high > 200:
        return None
    named = _named(words, number.end)
    if named is None and (role == "states" or not _ends(words, number.end)):
        return _things(words, start, number) if role == "makes" else None
    end, unit = named or (number.end, "people" if role == "feeds" else "pieces")
    return Count(start, end, number.low, number.high, unit)


def _named(words: Words, place: int) -> tuple[int, str] | None:
    """The eaters or helpings that a number counts, as the token after them and the unit."""
    place = skip_sizes(words, place)
    if length := phrases(TABLE, "eaters").match(words, place):
        return place + length, "people"
    if length := phrases(TABLE, "helpings").match(words, place):
        return place + length, words.at(place + length - 1)
    return None


def _things(words: Words, start: int, number: Number) -> Count | None:
    """ "makes 12 pancakes": what is made, by its own name."""
    place = skip_sizes(words, number.end)
    thing = words.at(place)
    unit = read_unit(words, place)
    if unit is not None and unit.kind in ("time", "temperature", "mass", "length", "volume"):
        return None
    if thing in phrases(TABLE, "not made") or words.doc[place].tag_ not in ("NNS", "NN"):
        return None
    return Count(start, place + 1, number.low, number.high, thing)


def _ends(words: Words, place: int) -> bool:
    """Whether the number stands alone: "serves four", not "serve two cups"."""
    after = words.at(place)
    if not after or not after[0].isalpha() or after in phrases("amount_words", "uncounted"):
        return True
    return words.doc[place].pos_ in ("ADV", "VERB", "AUX", "SCONJ")


@cache
def sayings() -> dict[str, list[tuple[tuple[str, ...], str]]]:
    """The batch sayings by their first word, longest first, each with its factor."""
    table: dict[str, list[tuple[tuple[str, ...], str]]] = {}
    for row in read_lexicon("batches", columns=("words", "factor")):
        words = tuple(row["words"].split())
        table.setdefault(words[0], []).append((words, row["factor"]))
    for rows in table.values():
        rows.sort(key=lambda row: -len(row[0]))
    return table


def _batch(words: Words, place: int) -> Count | None:
    for saying, factor in sayings().get(words.at(place), ()):
        found = _said(words, place, saying)
        if found is None or _is_possible(words, place):
            continue
        end, share = found
        value = Fraction(factor) if "N" not in factor else (1 / share if factor == "1/N" else share)
        return Count(place, end, value, value, "batch")
    return None


def _said(words: Words, place: int, saying: tuple[str, ...]) -> tuple[int, Fraction] | None:
    share = Fraction(1)
    for word in saying:
        if word == "N":
            value = read_value(words, place)
            if value is None or value[0] >= 1:
                return None
            share, place = value
        elif words.at(place) == word:
            place += 1
        else:
            return None
    return place, share


def _is_possible(words: Words, place: int) -> bool:
    possible = phrases(TABLE, "possible")
    return any(possible.match(words, start) for start in range(max(0, place - POSSIBLE_REACH), place))
