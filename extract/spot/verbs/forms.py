"""The kitchen verbs of the lexicon: each in all its forms, and with the particles it takes."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from extract.lexicon import read_lexicon

Form = Literal["base", "s", "ing", "past"]
VOWELS = "aeiou"


@dataclass(frozen=True, slots=True)
class Verb:
    """A kitchen verb: ``group`` is the kind of work, ``also`` what else the word commonly is."""

    lemma: str
    group: str
    also: str = ""


@cache
def verb_forms() -> dict[str, tuple[Verb, Form]]:
    """Every form of every verb of the lexicon, lower case."""
    forms: dict[str, tuple[Verb, Form]] = {}
    for row in read_lexicon("verbs", columns=("verb", "group", "also", "forms")):
        verb = Verb(row["verb"], row["group"], "" if row["also"] == "-" else row["also"])
        irregular = [] if row["forms"] == "-" else row["forms"].split(",")
        for form, word in regular_forms(verb.lemma, irregular):
            forms.setdefault(word, (verb, form))
    for verb, _ in list(forms.values()):
        forms[verb.lemma] = (verb, "base")
    return forms


def regular_forms(lemma: str, irregular: list[str]) -> list[tuple[Form, str]]:
    """The forms of a verb by the spelling rules of English; irregular ones replace the past or the -ing."""
    stem = lemma[:-1] if lemma.endswith("e") and not lemma.endswith(("ee", "oe")) else lemma
    if doubles(lemma):
        stem = lemma + lemma[-1]
    plural = lemma + ("es" if lemma.endswith(("s", "sh", "ch", "x", "z")) else "s")
    past = stem + "ed"
    if lemma.endswith("y") and lemma[-2] not in VOWELS:
        plural, past = lemma[:-1] + "ies", lemma[:-1] + "ied"
    forms: list[tuple[Form, str]] = [("base", lemma), ("s", plural)]
    forms += [("ing" if word.endswith("ing") else "past", word) for word in irregular if word != lemma]
    forms += [("ing", stem + "ing"), ("past", past)]
    return forms


def doubles(lemma: str) -> bool:
    """Whether a short verb doubles its last letter, as "chop" does and "cook" does not."""
    if len(lemma) < 3 or lemma[-1] in VOWELS + "wxyh":
        return False
    short = sum(letter in VOWELS for letter in lemma) == 1
    return short and lemma[-2] in VOWELS and lemma[-3] not in VOWELS


@cache
def phrasal_verbs() -> dict[str, dict[str, str]]:
    """Particles by verb, with the wording of each phrase ("" where the phrase itself is right)."""
    found: dict[str, dict[str, str]] = {}
    for row in read_lexicon("phrasal_verbs", columns=("phrase", "wording")):
        verb, _, particle = row["phrase"].partition(" ")
        found.setdefault(verb, {})[particle] = "" if row["wording"] == "-" else row["wording"]
    return found
