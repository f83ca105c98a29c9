"""What a phrase of the talk is called in the method: "mushrooms", not "them"."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING, Protocol

from extract.draft.method.phrases.figures import volume_words
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from extract.language.speech import Speech
    from extract.spot.spans import Food
    from extract.spot.verbs.ground import Phrase


SHARE_REACH = 6
SHARE = re.compile(
    r"(?P<share>half|(?:a|one) third|two thirds|(?:a|one) quarter|three quarters"
    r"|the (?:rest|last|remainder|other half))"
    r"(?: of)?(?: (?:that|the|this|your|my|our|those|these|them))?"
)


REMAINS = re.compile(r"the (?:last|remainder)")


class Resolve(Protocol):
    """Gives the name of what a reference (tokens ``start`` to ``end``) stands for, None where unknown."""

    def __call__(self, start: int, end: int) -> str | None: ...


def food_name(food: Food) -> str:
    """A food's name in the number the cook used."""
    if not food.plural:
        return food.name
    from extract.draft.method.phrases.grammar import plural

    return plural(food.name)


def phrase_name(speech: Speech, phrase: Phrase, resolve: Resolve) -> str | None:
    """The short noun phrase that names a phrase, references resolved; None where nothing does."""
    if phrase.food is not None:
        return food_name(phrase.food)
    if phrase.kind == "pronoun":
        return resolve(phrase.start, phrase.end)
    text = speech.doc[phrase.start : phrase.end].text.lower()
    return None if text in words("no thing") else text


def plain_pronoun(word: str) -> str:
    """The pronoun that a written method uses for one of speech: "it" for "that", "them" for "those"."""
    if word in words("own thing"):
        return "it"
    if word in words("either reference"):
        return "everything"
    return "them" if word in words("plural reference") else "it"


def phrase_names(speech: Speech, phrases: Sequence[Phrase], resolve: Resolve) -> list[str]:
    """The names of several phrases, each once, in order."""
    found = (phrase_name(speech, phrase, resolve) for phrase in phrases)
    return list(dict.fromkeys(name for name in found if name))


def shared_name(speech: Speech, phrase: Phrase, name: str, volumes: Mapping[int, Fraction]) -> str:
    """A name with the share of it that was said: "half of the glaze (about 1/3 cup)".

    ``volumes`` are the millilitres of shares by the token they begin at, where they are known.
    """
    for at in range(max(0, phrase.start - SHARE_REACH), phrase.start):
        text = " ".join(token.lower_ for token in speech.doc[at : phrase.start])
        found = SHARE.fullmatch(text)
        counted = (
            at
            and speech.doc[at - 1].lower_ in {"a", "and"}
            and not text.startswith(("the ", "two ", "three "))
        )
        if found is not None and not counted:
            volume = next((volumes[start] for start in range(at, phrase.start) if start in volumes), None)
            size = f" ({volume_words(volume)})" if volume is not None else ""
            share = REMAINS.sub("the rest", found["share"])
            return f"{share} of the {name}{size}"
    return name
