"""Shares of what has been made: "half of that goes on the pork", "the rest of the glaze", "all but a cup of it"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from extract.spot.shares.words import (
    Figure,
    Place,
    clause_after,
    clause_before,
    destination,
    holds,
    is_one_of,
    longest,
    read_figure,
)
from extract.spot.spans import Amount, Share

if TYPE_CHECKING:
    from spacy.tokens import Doc

NOMINAL = frozenset({"NOUN", "PROPN", "ADJ"})
LONGEST_NAME = 4


@dataclass(frozen=True, slots=True)
class Thing:
    """What a share is of: its name as said ("" for a pronoun), where it ends, whether it is what is left."""

    name: str
    end: int
    is_rest: bool = False


def find_shares(doc: Doc, amounts: Sequence[Amount]) -> list[Share]:
    """Every share said of a definite thing, in order; "half a cup of" and "half an hour" are none."""
    place = Place(doc, [token.lower_ for token in doc])
    measures = {amount.start: amount for amount in amounts if amount.low is not None and amount.unit}
    taken = {i for amount in measures.values() for i in range(amount.start, amount.end)}
    shares: list[Share] = []
    at = 0
    while at < len(place):
        share = read_share(place, at, measures, taken)
        if share is not None:
            shares.append(share)
        at = share.end if share is not None else at + 1
    return shares


def read_share(place: Place, at: int, measures: dict[int, Amount], taken: set[int]) -> Share | None:
    """The share whose words begin at token ``at``, or None.

    ``measures`` are the amounts by their first token, ``taken`` all their tokens.
    """
    figure = read_all_but(place, at, measures) or read_figure(place, at, measures)
    if figure is None or (figure.measure is None and any(i in taken for i in range(at, figure.end))):
        return None
    if longest(place, figure.end, "never") is not None:
        return None
    thing = read_thing(place, figure)
    if holds(place.low[max(0, at - 2) : at], "never before") or (
        thing is None and not stands_alone(place, at, figure)
    ):
        return None
    if thing is not None and not fits(place, figure, thing):
        return None
    share = share_of(place, at, figure, thing or Thing("", figure.end))
    # "Six pounds of it" tells how much there is; only what is kept of a thing is a share of it.
    told = share.measure is None or bool(share.of) or share.kept or figure.lead == "last"
    return share if told else None


def share_of(place: Place, at: int, figure: Figure, thing: Thing) -> Share:
    """The share with what becomes of it."""
    before, after = clause_before(place, at), clause_after(place, thing.end)
    kept = holds(before[-5:], "kept") or holds(after[:8], "kept")
    return Share(
        start=at,
        end=thing.end,
        fraction=figure.share,
        of=thing.name,
        kept=kept,
        gone=holds(after, "gone") or holds(before[-3:], "gone"),
        other=figure.lead == "other",
        into=destination(place, thing.end),
        measure=figure.measure,
        of_rest=thing.is_rest,
        known=figure.lead == "that",
        further=figure.lead in ("another", "last"),
    )


def read_all_but(place: Place, at: int, measures: dict[int, Amount]) -> Figure | None:
    """ "All but a quarter cup", "all but a third": everything with something held back."""
    if place.low[at : at + 2] != ["all", "but"]:
        return None
    held = read_figure(place, at + 2, measures)
    if held is None or held.share in ("rest", "all"):
        return None
    if held.measure is not None:
        return Figure("all", held.end, measure=held.measure)
    if isinstance(held.share, Fraction):
        return Figure(1 - held.share, held.end)
    return Figure("some", held.end)


def read_thing(place: Place, figure: Figure) -> Thing | None:
    """What the share is of: "of that dressing", "the glaze", "of it", "of what's left of the topping"."""
    at = figure.end
    if figure.share == "rest" and place.low[at - 1] == "left" and place.at(at) == "in":
        end = name_end(place, at + 2) if is_one_of(place.at(at + 1), "determiner") else at
        return Thing(" ".join(place.low[at + 2 : end]), end) if end > at + 2 else None
    has_of = place.at(at) == "of" or (at > 0 and place.low[at - 1] == "of")
    at += place.at(at) == "of"
    if has_of and (vessel := vessel_named(place, at)) is not None:
        return vessel
    left = longest(place, at, "left") if has_of else None
    if left is not None:
        whole = read_thing(place, Figure("all", left[0])) if place.at(left[0]) in {"of", "in"} else None
        return Thing(whole.name if whole else "", whole.end if whole else left[0], is_rest=True)
    if has_of and is_one_of(place.at(at), "pronoun") and place.at(at + 1) in {"one", "ones"}:
        return None
    if has_of and is_one_of(place.at(at), "pronoun") and not begins_name(place, at + 1):
        return Thing("", at + 1)
    remaining = figure.share == "rest" and place.low[figure.end - 1] in {"remaining", "last"}
    if is_one_of(place.at(at), "determiner"):
        at += 1
    elif not remaining:
        return None
    end = name_end(place, at)
    if end > at + 1 and holds(place.low[end - 1 : end], "kept"):
        end -= 1  # "the other half of the dressing waits"
    return Thing(" ".join(place.low[at:end]), end) if end > at else None


def vessel_named(place: Place, at: int) -> Thing | None:
    """ "What's in the blue tub": what a vessel holds, by the vessel's name."""
    if place.at(at) not in {"what", "whatever"} or place.at(at + 1) not in {"'s", "is", "was"}:
        return None
    if place.at(at + 2) != "in" or not is_one_of(place.at(at + 3), "determiner"):
        return None
    end = name_end(place, at + 4)
    return Thing(" ".join(place.low[at + 4 : end]), end) if end > at + 4 else None


def begins_name(place: Place, at: int) -> bool:
    """Whether the token can begin the name of a thing."""
    if at >= len(place):
        return False
    token = place.doc[at]
    return token.pos_ in NOMINAL or token.tag_ in {"VBN", "VBG"}


def name_end(place: Place, at: int) -> int:
    """One past the last word of the name that begins at ``at``; ``at`` itself where none does."""
    end = at
    while end - at < LONGEST_NAME and begins_name(place, end) and longest(place, end, "rest") is None:
        end += 1
    while end > at and place.doc[end - 1].pos_ not in {"NOUN", "PROPN"} and end - at > 1:
        end -= 1
    return end


def fits(place: Place, figure: Figure, thing: Thing) -> bool:
    """Whether these words can tell a share: a vague or measured one must be "of" something definite."""
    if figure.share in ("some", "all") or figure.measure is not None:
        between = place.low[figure.start : thing.end]
        return "of" in between or (figure.share == "all" and bool(thing.name))
    if figure.needs_of or place.low[figure.start : figure.end] == ["rest"]:
        return place.at(figure.end) == "of"
    return True


def stands_alone(place: Place, at: int, figure: Figure) -> bool:
    """ "Half." and "the rest goes in the pan": a share of what was spoken of last."""
    after = place.at(figure.end) or "."
    if figure.share == "rest":
        whole = place.low[at] in {"the", "what", "whatever", "whats"}
        named = place.low[figure.end - 1] in {"last", "remaining"} and after not in {
            "is",
            "are",
            "goes",
            "go",
        }
        return whole and not named and after != "of" and not begins_name(place, figure.end)
    if after == "of" or not is_one_of(after, "bare"):
        return False
    if figure.lead in ("other", "another", "last"):
        return True
    if figure.measure is not None or figure.share in ("some", "all"):
        return False
    before = place.at(at - 1) or "."
    dealt = is_one_of(after, "dealt")
    opens = before in {".", "?", "!", ":"} or (figure.needs_of and before in {",", "and"})
    return (opens and dealt) or (before == "?" and after == ".")
