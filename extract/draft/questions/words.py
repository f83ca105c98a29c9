"""The lexicons that questions are weighed by, and the small wording they share."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache

from extract.language.spelling import plainly
from extract.lexicon import read_lexicon
from extract.spot.names.foods import canonical, kinds_of, name_keys, word_key

KIND_COLUMNS = ("kind", "tier", "weight", "source", "about")


@dataclass(frozen=True, slots=True)
class Kind:
    """A row of ``lexicons/tables/question_kinds.tsv``: where its questions stand, what an answer is written into."""

    tier: int = 6
    weight: int = 50
    source: str = ""
    about: str = ""


@cache
def question_words(role: str) -> frozenset[str]:
    """The words of ``lexicons/words/question_words.tsv`` that play one role."""
    rows = read_lexicon("question_words", columns=("word", "role"))
    return frozenset(row["word"] for row in rows if row["role"] == role)


@cache
def question_kinds() -> dict[str, Kind]:
    """Every kind of question, from ``lexicons/tables/question_kinds.tsv``."""
    rows = read_lexicon("question_kinds", columns=KIND_COLUMNS)
    return {
        row["kind"]: Kind(int(row["tier"]), int(row["weight"]), row["source"], row["about"]) for row in rows
    }


def kind_of(kind: str) -> Kind:
    """The row of one kind; a kind that another program added stands last and its answer is only kept."""
    return question_kinds().get(kind, Kind())


@cache
def _food_weights() -> dict[str, dict[str, int]]:
    rows = read_lexicon("question_foods", columns=("kind", "missing", "vague", "size"))
    return {
        row["kind"]: {column: int(row[column]) for column in ("missing", "vague", "size")} for row in rows
    }


def food_weight(food: str, lack: str) -> int:
    """How much a ``lack`` ("missing", "vague" or "size") of a food's amount can spoil, from 0 to 100."""
    table = _food_weights()
    known = [table[kind][lack] for kind in kinds_of(food) if kind in table]
    return max(known, default=table["other"][lack])


def is_to_taste(food: str) -> bool:
    """Whether everyone adds the food by taste: salt, pepper."""
    keys = name_keys(canonical(food))
    return canonical(food) in question_words("to taste") or (keys[-1:] in {("salt",), ("pepper",)})


def holds(text: str, role: str) -> bool:
    """Whether a name or remark holds a word or phrase of one role, as whole words, in either number."""
    padded = f" {' '.join(name_keys(plainly(text)))} "
    return any(f" {word} " in padded for word in _keys(role))


@cache
def _keys(role: str) -> frozenset[str]:
    return frozenset(" ".join(name_keys(word)) for word in question_words(role))


def is_many(name: str) -> bool:
    """Whether a name is in the plural: "how many carrots", "how much flour"."""
    last = name.split()[-1].lower() if name.split() else ""
    return last.endswith("s") and word_key(last) != last


def listed(names: Sequence[str], last: str = "and") -> str:
    """Names as a person counts them up: "salt, pepper and cumin"."""
    return f"{', '.join(names[:-1])} {last} {names[-1]}" if len(names) > 1 else "".join(names)


def once(names: Iterable[str]) -> list[str]:
    """Each name once, in order."""
    return list(dict.fromkeys(names))
