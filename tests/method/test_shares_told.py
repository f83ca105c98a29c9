"""Every share that the ledger has is told once, where the cook's sentence had no verb of work for it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from extract.draft.method.shares import Taken, order, without_shared
from extract.reconcile.hearing.hearing import Portion
from extract.reconcile.ledger.ledger import Out
from extract.reconcile.ledger.quantities import Range
from extract.spot.actions.span import ActionSpan
from extract.spot.spans import Food, Share
from extract.spot.verbs.ground import Phrase

HALF = Fraction(1, 2)


def portion(share: Share) -> Portion:
    out = Out(share.fraction, Range(HALF, HALF), Range(HALF, HALF), share.start, "used")
    return Portion(share, share.of, "", share.fraction, out)


def cutting(at: int) -> ActionSpan:
    return ActionSpan("cut", at, at, at + 1, (at, at + 20), "cut")


@pytest.mark.parametrize(
    ("share", "told"),
    [
        (Share(5, 7, HALF, "sauce", into="over the meat"), "put half of the sauce over the meat"),
        (
            Share(5, 7, HALF, "sauce", kept=True, into="in the freezer"),
            "keep half of the sauce in the freezer",
        ),
        (Share(5, 7, HALF, "sauce", kept=True), "keep half of the sauce for later"),
        (Share(5, 8, "rest", "sauce", into="for the table"), "use the rest of the sauce for the table"),
        (Share(5, 8, HALF, "sauce", other=True), "use the rest of the sauce"),
        (Share(5, 8, Fraction(2, 3), "sauce", into="for the grams"), "use two thirds of the sauce"),
    ],
)
def test_a_share_is_told_with_where_it_goes(share: Share, told: str) -> None:
    assert order(portion(share)) == told


def test_only_what_the_method_does_not_tell_is_told() -> None:
    first, other = Share(5, 7, HALF, "red sauce"), Share(12, 14, HALF, "red sauce")
    taken = Taken([portion(first), portion(other)], [(0, 20)])
    actions = [cutting(0), cutting(16)]
    assert [a.at for a in taken.untold("Put half of this sauce, more or less, in the dish.", actions)] == [12]
    assert [a.at for a in taken.untold("Stir the sauce.", actions)] == [5, 12]


@pytest.mark.parametrize(
    "share", [Share(5, 6, "rest", "sauce"), Share(50, 52, HALF, "sauce"), Share(5, 7, HALF)]
)
def test_a_share_that_is_not_sure_is_not_told(share: Share) -> None:
    taken = Taken([portion(share)], [(0, 20)])
    assert not taken.untold("Stir the sauce.", [cutting(0), cutting(16)])


def test_what_is_told_as_a_share_is_not_put_in_again() -> None:
    taken = Taken([portion(Share(5, 7, HALF, "sauce"))], [(0, 20)])
    [share] = taken.untold("", [cutting(0)])
    food = Food(7, 8, "sauce", "sauce")
    named = ActionSpan("add", 5, 5, 8, (0, 20), "add", objects=(Phrase(7, 8, "food", food),), implied=True)
    goes = ActionSpan("put", 8, 8, 9, (0, 20), "add")
    assert without_shared([named, goes, cutting(9)], [share]) == [cutting(9)]
    assert without_shared([replace(named, implied=False)], [share]) == [replace(named, implied=False)]
