"""The words around a share: its figure, the clause it stands in, and where it goes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Literal

from extract.lexicon import read_lexicon
from extract.spot.names.foods import not_foods
from extract.spot.spans import Amount

if TYPE_CHECKING:
    from spacy.tokens import Doc

CLAUSE_REACH = 14
PLACE_REACH = 12
NAME_REACH = 7
NEXT_REACH = 4
NO_PLACE = frozenset({"time", "person"})
FractionWord = Fraction | Literal["rest", "some", "all"]
Table = dict[str, list[tuple[tuple[str, ...], str]]]


@dataclass(frozen=True, slots=True)
class Place:
    """A talk as the share finder walks it: its tokens and their lower-case words."""

    doc: Doc
    low: list[str]

    def __len__(self) -> int:
        return len(self.low)

    def at(self, index: int) -> str:
        """The word at ``index``, "" outside the talk."""
        return self.low[index] if 0 <= index < len(self.low) else ""


@dataclass(frozen=True, slots=True)
class Figure:
    """How much of the thing: the share, one past its last token, its first, and the kind of word that leads it.

    ``needs_of``: a word such as "third" that is a share only where "of" follows it.
    """

    share: FractionWord
    end: int
    start: int = 0
    lead: str = ""
    measure: Amount | None = None
    needs_of: bool = False


@cache
def _table(kind: str) -> Table:
    """The phrases of one kind by their first word, longest first, each with its value."""
    table: Table = {}
    for row in read_lexicon("share_words", columns=("kind", "words", "value")):
        if row["kind"] == kind:
            words = tuple(row["words"].split())
            table.setdefault(words[0], []).append((words, row["value"]))
    for rows in table.values():
        rows.sort(key=lambda row: -len(row[0]))
    return table


@cache
def fraction_names() -> dict[Fraction, str]:
    """What cooks call each fraction: "half", "a third", "an eighth"; the first name where there are several."""
    names: dict[Fraction, str] = {}
    for row in read_lexicon("share_words", columns=("kind", "words", "value")):
        if row["kind"] in ("fraction", "part") and row["words"].isascii():
            lead = "" if row["kind"] == "fraction" else "an " if row["words"][0] in "aeiou" else "a "
            names.setdefault(Fraction(row["value"]), f"{lead}{row['words']}")
    return names


def longest(place: Place, at: int, kind: str) -> tuple[int, str] | None:
    """(end, value) of the longest phrase of a kind that stands at token ``at``; hyphens are passed over."""
    for words, value in _table(kind).get(place.at(at), ()):
        end = _match(place, at, words)
        if end is not None:
            return end, value
    return None


def _match(place: Place, at: int, words: Sequence[str]) -> int | None:
    for number, word in enumerate(words):
        if number and place.at(at) == "-":
            at += 1
        if place.at(at) != word:
            return None
        at += 1
    return at


def is_one_of(word: str, kind: str) -> bool:
    """Whether one word is an entry of a kind."""
    return any(words == (word,) for words, _ in _table(kind).get(word, ()))


def holds(words: Sequence[str], kind: str) -> bool:
    """Whether a phrase of a kind stands anywhere among the words."""
    table = _table(kind)
    return any(
        tuple(words[at : at + len(phrase)]) == phrase
        for at, first in enumerate(words)
        for phrase, _ in table.get(first, ())
    )


def read_figure(place: Place, at: int, measures: dict[int, Amount]) -> Figure | None:
    """The share or measure that begins at token ``at``."""
    if at in measures:
        return Figure("some", measures[at].end, at, measure=measures[at])
    lead = longest(place, at, "lead")
    after, kind = lead if lead is not None else (at, "")
    if kind in {"last", "that"} and after in measures:
        return Figure("some", measures[after].end, at, kind, measures[after])
    fraction = longest(place, after, "fraction")
    if fraction is not None:
        return Figure(Fraction(fraction[1]), fraction[0], at, kind)
    part = longest(place, after, "part") if lead is not None else None
    if part is not None:
        ordinal = kind in {"plain", "that"} or place.low[at:after] == ["the", "second"]
        return Figure(Fraction(part[1]), part[0], at, kind, needs_of=ordinal)
    return _whole(place, at) or _what_is_left(place, at)


def _whole(place: Place, at: int) -> Figure | None:
    """A share without a figure: the rest, all, some."""
    for kind in ("left", "rest", "some", "all"):
        found = longest(place, at, kind)
        if found is not None:
            share: FractionWord = "some" if kind == "some" else "all" if kind == "all" else "rest"
            return Figure(share, found[0], at)
    return None


def _what_is_left(place: Place, at: int) -> Figure | None:
    """ "Whatever topping is left": what is left of a thing named in the middle of the words."""
    if place.at(at) not in {"whatever", "what"}:
        return None
    for end in range(at + 2, min(at + 5, len(place) - 1)):
        if place.low[end] in {"is", "'s", "are"} and place.low[end + 1] == "left":
            return Figure("rest", end + 2, at)
    return None


def clause_before(place: Place, at: int) -> list[str]:
    """The words of the share's clause before it, back to a break, a comma or an "and"."""
    out: list[str] = []
    i = at - 1
    while i >= 0 and len(out) < CLAUSE_REACH and not is_one_of(place.low[i], "breaks"):
        if place.low[i] in {",", "and", "then"}:
            break
        out.append(place.low[i])
        i -= 1
    return out[::-1]


def clause_after(place: Place, at: int) -> list[str]:
    """The words of the share's clause after it, up to a full stop or the next share."""
    out: list[str] = []
    i = at
    while i < len(place) and len(out) < CLAUSE_REACH and place.low[i] not in {".", "?", "!", ";"}:
        if place.low[i] in {"and", ","} and _begins_share(place, i + 1):
            break
        if i > at + 1 and _is_figure(place, i):
            break
        out.append(place.low[i])
        i += 1
    return out


def _begins_share(place: Place, at: int) -> bool:
    """Whether another share begins at token ``at`` or after its verb ("leave the rest"): its fate is its own."""
    return any(_is_figure(place, start) for start in range(at, at + NEXT_REACH))


def _is_figure(place: Place, at: int) -> bool:
    lead = longest(place, at, "lead")
    after = lead[0] if lead is not None else at
    found = longest(place, after, "fraction") or (longest(place, after, "part") if lead else None)
    return found is not None or any(longest(place, at, kind) is not None for kind in ("rest", "left"))


def destination(place: Place, at: int) -> str:
    """Where a share goes, in short words with their preposition: "over the pork"; "" where it is not told."""
    for i in range(at, min(len(place), at + PLACE_REACH)):
        word = place.low[i]
        if is_one_of(word, "breaks") or (word in {"and", ","} and _begins_share(place, i + 1)):
            return ""
        if word == "," and not is_one_of(place.at(i + 1), "place"):
            return ""
        if i > at and _is_figure(place, i):
            return ""
        if is_one_of(word, "place"):
            name = _name_after(place, i + 1)
            if name:
                return f"{word} the {name}"
    return ""


def _name_after(place: Place, at: int) -> str:
    """The noun phrase at ``at`` without its determiner, figures and measures; "" where there is none."""
    name: list[str] = []
    for i in range(at, min(len(place), at + NAME_REACH)):
        token = place.doc[i]
        if token.pos_ in {"NOUN", "PROPN"}:
            if not_foods().get(token.lower_) in NO_PLACE:
                return ""
            name.append(token.lower_)
        elif name and token.lower_ == "of":
            name = []
        elif name:
            break
        elif token.pos_ not in {"DET", "ADJ", "NUM", "PRON", "ADV"} or token.lower_ in {"it", "them", "you"}:
            return ""
    return " ".join(name)
