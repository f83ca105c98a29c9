"""What a phrase of the talk is called in the method: "mushrooms", not "them"."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Protocol

from extract.spot.actions_words import words

if TYPE_CHECKING:
    from extract.language.speech import Speech
    from extract.spot.actions_clauses import Phrase
    from extract.spot.spans import Food


class Resolve(Protocol):
    """Gives the name of what a reference (tokens ``start`` to ``end``) stands for, None where unknown."""

    def __call__(self, start: int, end: int) -> str | None: ...


def food_name(food: Food) -> str:
    """A food's name in the number the cook used."""
    if not food.plural:
        return food.name
    from extract.draft.method.grammar import plural

    return plural(food.name)


def phrase_name(speech: Speech, phrase: Phrase, resolve: Resolve) -> str | None:
    """The short noun phrase that names a phrase, references resolved; None where nothing does."""
    if phrase.food is not None:
        return food_name(phrase.food)
    if phrase.kind == "pronoun":
        return resolve(phrase.start, phrase.end)
    text = speech.doc[phrase.start : phrase.end].text.lower()
    return None if text in words("no thing") else text


def phrase_names(speech: Speech, phrases: Sequence[Phrase], resolve: Resolve) -> list[str]:
    """The names of several phrases, each once, in order."""
    found = (phrase_name(speech, phrase, resolve) for phrase in phrases)
    return list(dict.fromkeys(name for name in found if name))
