"""Foods in the words of a talk: those the lexicon names, and those the sentence can only mean as foods."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from extract.spot.foods.around import Around, words_around
from extract.spot.foods.known import Match, match_foods
from extract.spot.foods.mending import mend
from extract.spot.foods.place import counts_here, foods_by_place
from extract.spot.foods.words import TalkWords
from extract.spot.names.foods import look_up, name_keys, word_key
from extract.spot.spans import Amount, Food

if TYPE_CHECKING:
    from spacy.tokens import Doc

_MASS = frozenset({"dairy", "fat", "oil", "flour", "starch", "leavening", "stock", "vinegar", "liquid"})
NEAR = 12  # mentions on either side whose words a mention may not take


def find_foods(doc: Doc, amounts: Sequence[Amount] = ()) -> list[Food]:
    """Every mention of a food in ``doc``, in order, no two sharing a token.

    ``amounts`` (token spans) keep units such as "clove" from being read as foods and mark the places where a
    food the lexicon lacks must stand. A mention's span takes in its preparation before and after the name.
    """
    words = TalkWords(doc, amounts)
    matches = match_foods(words)
    named = mend(words, [match for match in matches if counts_here(words, match, matches)])
    kept = sorted((*named, *foods_by_place(words, [*matches, *named])), key=lambda match: match.start)
    near = (kept[max(0, at - NEAR) : at + NEAR + 1] for at in range(len(kept)))
    return [
        _food(words, match, words_around(words, match, others))
        for match, others in zip(kept, near, strict=True)
    ]


def _is_mass(match: Match) -> bool:
    """Whether the name has no plural of its own, so that "once those butters have melted" is butter."""
    entry = look_up(name_keys(match.entry.shown)[-1:])
    return entry is not None and entry.main in _MASS


def _food(words: TalkWords, match: Match, around: Around) -> Food:
    name = " ".join((*around.name, match.entry.shown))
    return Food(
        start=around.start,
        end=around.end,
        name=name,
        head=word_key(match.entry.shown.split()[-1]),
        known=bool(match.entry.kinds),
        state=" ".join(around.state),
        preparation=", ".join(around.preparation),
        kinds=match.entry.kinds,
        plural=match.plural and not _is_mass(match),
        mended=words.doc[match.start : match.end].text.lower() if match.misheard else "",
    )
