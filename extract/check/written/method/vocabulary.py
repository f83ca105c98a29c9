"""What a word of a written method can be: a verb that orders, a preposition, a thing."""

from __future__ import annotations

from functools import cache

from extract.lexicon import read_lexicon
from extract.spot.verbs.forms import Verb, phrasal_verbs, verb_forms


@cache
def method_words(kind: str) -> frozenset[str]:
    """The words of ``lexicons/words/written_method.tsv`` of one kind."""
    rows = read_lexicon("written_method", columns=("word", "kind"))
    return frozenset(row["word"] for row in rows if row["kind"] == kind)


@cache
def _small_words() -> frozenset[str]:
    rows = read_lexicon("written_method", columns=("word", "kind"))
    small = (
        "opens",
        "hands on",
        "after verb",
        "article",
        "place",
        "means",
        "aside",
        "pronoun",
        "no thing",
        "until",
    )
    return frozenset(row["word"] for row in rows if row["kind"] in small)


def is_thing(word: str) -> bool:
    """Whether a word can name a food or a vessel: a word, no small word, no adverb."""
    return word[:1].isalpha() and word not in _small_words() and not word.endswith("ly")


def base_verb(word: str) -> Verb | None:
    """The kitchen verb whose base form ``word`` is, None where it is none."""
    found = verb_forms().get(word.lower())
    if found is not None and found[1] == "base" and found[0].lemma == word.lower():
        return found[0]
    return Verb(word.lower(), "light") if word.lower() in method_words("hands on") else None


def particle_of(verb: str) -> dict[str, str]:
    """The particles that make another verb of ``verb``, each with the phrase's wording ("" for itself)."""
    return phrasal_verbs().get(verb, {})
