"""Kitchen equipment named in the talk."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from extract.lexicon import read_lexicon

if TYPE_CHECKING:
    from spacy.tokens import Doc

LONGEST = 4


@dataclass(frozen=True, slots=True)
class Equipment:
    """One piece of equipment: ``kind`` as in the lexicon, ``listed`` where an equipment list names it."""

    name: str
    kind: str
    listed: bool


@cache
def equipment_by_words() -> dict[tuple[str, ...], Equipment]:
    """Every name and spelling, as the tokens it is said in."""
    found: dict[tuple[str, ...], Equipment] = {}
    for row in read_lexicon("equipment", columns=("name", "kind", "also", "list")):
        thing = Equipment(row["name"], row["kind"], row["list"] == "yes")
        others = [] if row["also"] == "-" else row["also"].split("|")
        for name in (row["name"], *others):
            found.setdefault(tuple(name.replace("-", " - ").replace("'s", " 's").split()), thing)
    return found


@cache
def first_words() -> frozenset[str]:
    """The words with which names of equipment begin."""
    return frozenset(name[0] for name in equipment_by_words())


def equipment_at(doc: Doc, at: int, end: int) -> tuple[Equipment, int] | None:
    """The longest piece of equipment that begins at a token, with the token after it; plurals count."""
    if at >= end or not {doc[at].lower_, singular(doc[at].lower_)} & first_words():
        return None
    tokens = [doc[place].lower_ for place in range(at, min(at + LONGEST, end))]
    for length in range(len(tokens), 0, -1):
        for last in dict.fromkeys((tokens[length - 1], singular(tokens[length - 1]))):
            thing = equipment_by_words().get((*tokens[: length - 1], last))
            if thing is not None:
                return thing, at + length
    return None


def singular(word: str) -> str:
    """A word without the ending of a plural: enough to look equipment up."""
    if word.endswith(("ches", "shes", "xes", "sses")):
        return word[:-2]
    if word == "knives":
        return "knife"
    return word[:-1] if word.endswith("s") and not word.endswith("ss") else word
