"""Names that leave something open: bare ones, which stand for a fuller one, and general ones with their sorts."""

from __future__ import annotations

from functools import cache

from extract.lexicon import read_lexicon
from extract.spot.names.foods import canonical, meaning, name_keys
from extract.spot.names.modifiers import NOTHING


@cache
def _bare() -> dict[str, frozenset[str]]:
    return _joined("bare_foods", ("bare", "stands_for"))


def _joined(table: str, columns: tuple[str, str]) -> dict[str, frozenset[str]]:
    """By the name in the first column all that any of its rows has in the second."""
    found: dict[str, frozenset[str]] = {}
    for row in read_lexicon(table, columns=columns):
        name, under = canonical(row[columns[0]]), row[columns[1]].split("; ")
        found[name] = found.get(name, NOTHING) | {canonical(each) for each in under}
    return found


def stands_for(bare: str, fuller: str) -> bool:
    """Whether a bare name leaves open what a fuller one says; two fuller ones are two sorts."""
    general = canonical(bare)
    if canonical(fuller) not in _bare().get(general, NOTHING):
        return False
    own, entry = meaning(bare).entry, meaning(general).entry
    alike = own is None or entry is None or own.name == entry.name
    return alike or _literal(bare) not in _fuller(general)


@cache
def _fuller(general: str) -> frozenset[str]:
    rows = read_lexicon("bare_foods", columns=("bare", "stands_for"))
    return frozenset(
        _literal(name)
        for row in rows
        if canonical(row["bare"]) == general
        for name in row["stands_for"].split("; ")
    )


def sort_of(name: str) -> str:
    """The one name under which a food is bought: a sort that another bare name stands for by its own words."""
    general = canonical(name)
    return _literal(name) if _literal(name) in _fuller(general) else general


def _literal(name: str) -> str:
    return " ".join(name_keys(name))


@cache
def sorts() -> dict[str, frozenset[str]]:
    """What goes under a general name: "stout" under "dark beer" (lexicons/words/general_foods.tsv)."""
    return _joined("general_foods", ("general", "particular"))
