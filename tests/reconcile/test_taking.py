"""Shares that are taken in a talk: of which thing, out of what was kept, how much. The talks are "
"invented."""

from __future__ import annotations

from dataclasses import fields
from fractions import Fraction

import numpy as np
import pytest
from heard import segments_of, speech_of, spotted_in
from plainly_read import plain_reading

from extract.reader.reading import Floats, Places, Reading
from extract.reconcile.hearing.hearing import Portion
from extract.reconcile.kitchen import Reconciled, reconcile
from extract.segment.dishes import segment
from extract.spot.spotted import spot

HALF, THIRD = Fraction(1, 2), Fraction(1, 3)
# Both sauces are two cups, 473 ml: NIST Handbook 44, Appendix C, a cup is 236.588 ml.
SAUCE = "For the sauce, a cup of soy sauce and a cup of rice wine. "
SYRUP = "The syrup is a cup of honey and a cup of water. "
GRAVY = "The gravy is a cup of stock and a cup of cream. "


def heard(text: str) -> Reconciled:
    return reconcile(spotted_in(text), segments_of(text))


def portions_in(text: str) -> list[Portion]:
    return [portion for kitchen in heard(text).kitchens for portion in kitchen.portions]


def told(portion: Portion) -> tuple[object, str, int | None]:
    """The share, the thing, and its size to the nearest millilitre or gram."""
    size = portion.size
    return portion.fraction, portion.of, None if size is None else round(size.size.low)


TALKS = [
    # the same thing goes on being meant
    (
        SAUCE + "Half of that goes on the pork and the rest goes on the rice.",
        [(HALF, "sauce", 237), ("rest", "sauce", 237)],
    ),
    # the share that was kept, told again in the same dish as it goes in, is one share
    # and so are shares that were planned first: 473 ml in halves
    (
        SAUCE
        + "Half of that sauce is for the fish and the rest is for the table. Now half the sauce goes over the fish, "
        "and the remaining sauce in a bowl.",
        [(HALF, "sauce", 237), ("rest", "sauce", 237)],
    ),
    # what was kept is taken up by "we kept", by its vessel, or when nothing else is left
    (
        SAUCE + "The rest of the sauce goes in a jug. And then you pour half of the sauce over the top.",
        [("rest", "sauce", 473), (HALF, "sauce", 237)],
    ),
    (
        SAUCE
        + "A third of the sauce goes in this blue tub. The rest of the sauce goes on the pork. Half of what's in the "
        "blue tub goes on the beans.",
        [(THIRD, "sauce", 158), ("rest", "sauce", 315), (HALF, "reserved sauce", 79)],
    ),
    # a rest that was left standing and then used is one rest
    # an echo is one share
    # a bought food that is divided
    (
        "Bring 800 mils of milk up to the boil. Keep a quarter of that milk back for the mash. The "
        "rest of it goes in the "
        "sauce.",
        [(Fraction(1, 4), "milk", 200), ("rest", "milk", 600)],
    ),
    # an amount of a bought food is a use of its line and no share
    ("You have two cups of sugar here. A cup of the sugar goes in with the eggs.", []),
    # what the cook says there is
    (
        "The gravy is two cups of stock and some thyme. You end up with a cup and a half of gravy. "
        "Half of the gravy goes "
        "over the pork.",
        [(HALF, "gravy", 177)],
    ),
    # what no lexicon knows is dealt out all the same; the other half stays with it
    (
        "Half of the kaya goes on the toast and the other half is for us.",
        [(HALF, "kaya", None), (HALF, "kaya", None)],
    ),
    ("Another third of the day I sleep. You lose half of it to the birds, I always say.", []),
]


@pytest.mark.parametrize(("text", "portions"), TALKS)
def test_shares_taken(text: str, portions: list[tuple[object, str, int | None]]) -> None:
    assert [told(portion) for portion in portions_in(text)] == portions


def test_a_share_at_home_is_a_batch_and_no_share() -> None:
    assert portions_in(SAUCE + "At home you'd do a third of this.") == []


def test_what_a_dish_leaves_behind_is_not_used() -> None:
    used, gone = portions_in(
        SAUCE + "Half of the sauce goes on the pork. The rest of the sauce goes in the freezer."
    )
    assert (used.gone, gone.gone) == (False, True)


def test_the_other_half_of_a_food_is_no_line_of_its_own() -> None:
    (kitchen,) = heard(
        "Grate 200 grams of cheese. Half of the cheese goes in the tin. And the other half of the cheese on top."
    ).kitchens
    assert [(line.name, line.amount and line.amount.low) for line in kitchen.lines] == [("cheese", 200)]
    assert [told(portion) for portion in kitchen.portions] == [(HALF, "cheese", 100), (HALF, "cheese", 100)]


class Pointing(Reading):
    """A reading that takes every share for one of the thing named in ``of``."""

    of: str
    words: list[str]

    def name_scores(self, at: int, places: Places, *, share: bool) -> Floats:
        named = [share and self.words[place] == self.of for place in places.tolist()]
        return np.asarray([-1.0, *np.where(named, 0.0, -9.0)], dtype=np.float32)


def pointed(text: str, of: str) -> list[tuple[object, str]]:
    """The shares of ``text``, as told where the reader takes them for ones of ``of``."""
    speech = speech_of(text)
    plain = plain_reading(speech)
    reading = Pointing(**{field.name: getattr(plain, field.name) for field in fields(plain)})
    object.__setattr__(reading, "of", of)
    object.__setattr__(reading, "words", [token.lower_ for token in speech.doc])
    spotted = spot(speech, reading)
    kitchens = reconcile(spotted, segment(spotted)).kitchens
    return [(portion.fraction, portion.of) for kitchen in kitchens for portion in kitchen.portions]


MEANT = [
    # what "it" means is what the reader takes it for, not what was spoken of last
    (
        SAUCE + SYRUP + "The sauce is hot. Stir the syrup. Half of it goes over the pork.",
        "sauce",
        [(HALF, "sauce")],
    ),
    # a made thing that is named without a part of its own
    ("Whisk up the pink stuff. Half of that goes on the plate.", "stuff", []),
    ("Blend it to a romesco. Half of that goes on the plate.", "romesco", [(HALF, "romesco")]),
    ("Blend it to a romesco. Half of that goes on the plate.", "", []),
]


@pytest.mark.parametrize(("text", "of", "portions"), MEANT)
def test_a_share_of_what_the_reader_takes_it_for(
    text: str, of: str, portions: list[tuple[object, str]]
) -> None:
    assert pointed(text, of) == portions


DIVIDED = [
    ("You've got a cup and a half of sugar. A cup of the sugar goes in with the eggs.", ["sugar"]),
    ("Four cups of stock. Half of the stock goes in now. The rest of the stock goes in later.", ["stock"]),
    ("Add a quarter cup of the black vinegar and two cups of stock.", []),
    ("Two tablespoons of butter in the pan. And then one more tablespoon of butter to finish.", []),
]


@pytest.mark.parametrize(("text", "names"), DIVIDED)
def test_one_line_put_to_several_uses_is_divided(text: str, names: list[str]) -> None:
    (kitchen,) = heard(text).kitchens
    assert [line.name for line in kitchen.divided] == names
