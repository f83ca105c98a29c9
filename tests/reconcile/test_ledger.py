"""The ledger's arithmetic, checked by hand.

Source of the measures: NIST Handbook 44, Appendix C: 16 tablespoons or 48 teaspoons to the cup, 2 cups to the pint.
All sums below are in tablespoons.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from extract.reconcile.ledger.ledger import Ledger, Makes, Out, PutIn, Said, TakeOut
from extract.reconcile.ledger.quantities import NOTHING, WHOLE, Quantity, Range, exactly, millilitres_of

TABLESPOON = millilitres_of("tablespoon") or Fraction(0)
HALF, THIRD, QUARTER = Fraction(1, 2), Fraction(1, 3), Fraction(1, 4)


def spoons(low: Fraction | int | str, high: Fraction | int | None = None) -> Quantity:
    """A volume told in tablespoons."""
    top = Fraction(low) if high is None else Fraction(high)
    return Quantity("volume", Range(Fraction(low) * TABLESPOON, top * TABLESPOON))


def made(*sizes: Quantity | None) -> Ledger:
    """A ledger in which a glaze was made of these."""
    ledger = Ledger()
    for at, size in enumerate(sizes):
        ledger.apply(PutIn("glaze", f"food {at}", at, size))
    return ledger


def take(ledger: Ledger, share: Said, at: int = 50, thing: str = "glaze", **how: object) -> Out:
    out = ledger.apply(TakeOut(thing, share, at, **how))  # type: ignore[arg-type]
    assert out is not None
    return out


def in_spoons(out: Out) -> Fraction | None:
    return None if out.size is None or not out.size.size.exact else out.size.size.low / TABLESPOON


def test_five_tablespoons_a_third_of_a_cup_and_a_teaspoon_are_ten_and_two_thirds() -> None:
    ledger = made(spoons(5), spoons(THIRD * 16), spoons(THIRD))
    assert ledger.accounts["glaze"].whole == spoons(Fraction(32, 3))
    assert in_spoons(take(ledger, HALF)) == Fraction(16, 3)
    assert in_spoons(take(ledger, "rest")) == Fraction(16, 3)
    assert ledger.accounts["glaze"].left == NOTHING


SHARES = [
    # 8 + 4 = 12 tablespoons; a third is 4, the rest 8
    ([8, 4], [(THIRD, {}, 4), ("rest", {}, 8)]),
    # 16 + 8 = 24; all but 4 is 20, the last 4 is a sixth
    ([16, 8], [("all", {"measure": spoons(4)}, 20), ("some", {"measure": spoons(4)}, 4)]),
    # a quart and two cups are 64 + 32 = 96; half is 48
    ([64, 32], [(HALF, {}, 48), (HALF, {}, 48)]),
    # 16 + 16 = 32; half is 16, half of what is left 8, the rest 8
    ([16, 16], [(HALF, {}, 16), (HALF, {"of_rest": True}, 8), ("rest", {}, 8)]),
    # 40 of 20 and 20; three thirds of 40 / 3 each
    ([20, 20], [(THIRD, {}, Fraction(40, 3))] * 3),
    # 32 + 4 = 36; a cup is 16 of them
    ([32, 4], [("some", {"measure": spoons(16)}, 16), ("rest", {}, 20)]),
]


@pytest.mark.parametrize(("sizes", "shares"), SHARES)
def test_shares_by_hand(sizes: list[int], shares: list[tuple[Said, dict[str, object], Fraction]]) -> None:
    ledger = made(*(spoons(size) for size in sizes))
    found = [in_spoons(take(ledger, share, at, **how)) for at, (share, how, _) in enumerate(shares, 50)]
    assert found == [size for *_, size in shares]
    assert ledger.accounts["glaze"].left == NOTHING
    assert ledger.faults == []


def test_a_range_halved_stays_a_range() -> None:
    ledger = made(spoons(2, 3), spoons(1), spoons(1))
    out = take(ledger, HALF)
    assert out.size == spoons(2, Fraction(5, 2))


def test_a_share_of_something_without_a_volume_has_none_but_is_a_share() -> None:
    ledger = made(spoons(8), None)
    out = take(ledger, QUARTER)
    assert (out.size, out.part) == (None, exactly(QUARTER))


def test_masses_add_up_too_and_do_not_mix_with_volumes() -> None:
    ledger = made(Quantity("mass", exactly(500)), Quantity("mass", exactly(320)))
    assert take(ledger, HALF).size == Quantity("mass", exactly(410))
    assert take(made(spoons(8), Quantity("mass", exactly(1))), HALF).size is None


def test_what_the_cook_says_there_is_stands_before_the_sum_and_later_foods_are_added() -> None:
    ledger = made(spoons(8), None)
    ledger.apply(Makes("glaze", 10, spoons(48)))
    assert in_spoons(take(ledger, THIRD)) == 16
    ledger.apply(PutIn("glaze", "water", 60, spoons(2)))
    assert ledger.accounts["glaze"].whole == spoons(50)


def test_more_than_was_left_is_a_fault_and_nothing_is_made_up() -> None:
    ledger = made(spoons(16))
    take(ledger, HALF)
    out = take(ledger, Fraction(2, 3), 60)
    # 16 made, 8 gone; two thirds are 10 2/3 and only 8 are there
    assert (in_spoons(out), out.part) == (Fraction(32, 3), exactly(HALF))
    (fault,) = ledger.faults
    assert (fault.kind, fault.at, fault.left, fault.part) == (
        "over-used",
        60,
        exactly(HALF),
        exactly(Fraction(2, 3)),
    )


def test_an_amount_larger_than_what_is_left_is_a_fault() -> None:
    ledger = made(spoons(32), spoons(4))
    take(ledger, "some", measure=spoons(16))
    take(ledger, "some", 60, measure=spoons(24))  # 16 + 24 = 40 of 36
    assert [fault.kind for fault in ledger.faults] == ["over-used"]


def test_a_rest_after_everything_is_a_fault() -> None:
    ledger = made(spoons(4))
    take(ledger, "all")
    assert in_spoons(take(ledger, "rest", 60)) == 0
    assert [fault.kind for fault in ledger.faults] == ["nothing left"]


def test_some_leaves_nobody_knows_how_much() -> None:
    ledger = made(spoons(8))
    assert take(ledger, "some").size is None
    assert take(ledger, "rest").size is None
    assert ledger.accounts["glaze"].left == NOTHING


def test_a_share_put_by_is_an_account_of_its_own() -> None:
    ledger = made(spoons(24))
    kept = take(ledger, THIRD, purpose="kept")
    assert in_spoons(take(ledger, "rest", 60)) == 16
    assert in_spoons(take(ledger, HALF, 70, kept.reserve)) == 4  # half of the third of 24
    assert in_spoons(take(ledger, "rest", 80, kept.reserve)) == 4
    assert [account.name for account in ledger.reserves("glaze")] == ["reserved glaze"]


def test_shares_put_by_one_after_another_are_kept_apart() -> None:
    ledger = made(spoons(24))
    names = [take(ledger, QUARTER, at, purpose="kept").reserve for at in (50, 60)]
    assert names == ["reserved glaze", "reserved glaze (2)"]
    assert [account.name for account in ledger.reserves("glaze")] == names[::-1]


def test_a_share_of_a_thing_no_one_made_is_a_fault() -> None:
    ledger = Ledger()
    assert take(ledger, HALF).part == exactly(HALF)
    assert [fault.kind for fault in ledger.faults] == ["never made"]


def test_an_account_opens_whole() -> None:
    assert Ledger().account("rub").left == WHOLE
