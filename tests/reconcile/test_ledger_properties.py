"""Whatever is said in whatever order, nothing is created and nothing is lost."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from extract.reconcile.ledger.ledger import Account, Event, Ledger, Out, PutIn, Said, TakeOut
from extract.reconcile.ledger.quantities import NOTHING, Quantity, Range, exactly

FIGURES = st.fractions(min_value=Fraction(1, 48), max_value=40, max_denominator=48)
PARTS = st.fractions(min_value=Fraction(1, 12), max_value=1, max_denominator=12)
SHARES: st.SearchStrategy[Said] = st.one_of(PARTS, st.sampled_from(["rest", "all"]))
VAGUE: st.SearchStrategy[Said] = st.one_of(PARTS, st.sampled_from(["rest", "all", "some"]))


@st.composite
def ranges(draw: st.DrawFn) -> Range:
    low, more = draw(FIGURES), draw(st.one_of(st.just(Fraction(0)), FIGURES))
    return Range(low, low + more)


def ledger_of(sizes: list[Range], shares: list[Said], factor: Fraction = Fraction(1)) -> Ledger:
    """A glaze made of these volumes and dealt out in these shares."""
    ledger = Ledger()
    events: list[Event] = [
        PutIn("glaze", "food", at, Quantity("volume", size.times(exactly(factor))))
        for at, size in enumerate(sizes)
    ]
    events += [TakeOut("glaze", share, 100 + at) for at, share in enumerate(shares)]
    for event in events:
        ledger.apply(event)
    return ledger


def account(sizes: list[Range], shares: list[Said], factor: Fraction = Fraction(1)) -> Account:
    return ledger_of(sizes, shares, factor).accounts["glaze"]


def volume(out: Out) -> Range:
    assert out.size is not None
    return out.size.size


@given(st.lists(ranges(), min_size=1, max_size=6), st.lists(SHARES, max_size=8))
def test_what_went_in_is_what_came_out_and_what_is_left(sizes: list[Range], shares: list[Said]) -> None:
    found = account(sizes, shares)
    whole = found.whole
    assert whole is not None
    parts = sum((out.part.low for out in found.outs), Fraction(0))
    assert parts + found.left.low == 1
    taken = sum((whole.size.high * out.part.high for out in found.outs), Fraction(0))
    assert taken + whole.size.high * found.left.high == sum((size.high for size in sizes), Fraction(0))


@given(st.lists(ranges(), min_size=1, max_size=6), st.lists(VAGUE, max_size=8))
def test_a_share_without_a_figure_never_takes_more_than_there_is(
    sizes: list[Range], shares: list[Said]
) -> None:
    found = account(sizes, shares)
    least = sum((out.part.low for out in found.outs), found.left.low)
    most = sum((out.part.high for out in found.outs), found.left.high)
    assert least <= 1 <= most
    assert all(NOTHING.low <= out.part.low <= out.part.high <= 1 for out in found.outs)


@given(st.permutations([Range(Fraction(n), Fraction(n)) for n in (1, 2, 5, 16)]), st.permutations([1, 2, 3]))
def test_the_order_in_which_foods_go_in_and_shares_that_fit_come_out_changes_no_sum(
    sizes: list[Range], sixths: list[int]
) -> None:
    found = account(sizes, [Fraction(n, 6) for n in sixths])
    assert {volume(out).low: out.said for out in found.outs} == {
        Fraction(24 * n, 6): Fraction(n, 6) for n in (1, 2, 3)
    }
    assert found.left == NOTHING


@given(st.lists(ranges(), min_size=1, max_size=6), PARTS)
def test_a_range_stays_a_range(sizes: list[Range], part: Fraction) -> None:
    (out,) = account(sizes, [part]).outs
    low, high = (
        sum((end(size) for size in sizes), Fraction(0)) for end in (lambda s: s.low, lambda s: s.high)
    )
    assert volume(out) == Range(part * low, part * high)


@given(st.lists(ranges(), min_size=1, max_size=6), st.lists(SHARES, max_size=8), PARTS)
def test_scaling_all_that_goes_in_scales_all_that_comes_out(
    sizes: list[Range], shares: list[Said], factor: Fraction
) -> None:
    one, other = account(sizes, shares), account(sizes, shares, factor)
    assert [volume(out).times(exactly(factor)) for out in one.outs] == [volume(out) for out in other.outs]
    assert [out.part for out in one.outs] == [out.part for out in other.outs]


@given(st.lists(ranges(), min_size=1, max_size=6), PARTS)
def test_a_share_and_the_rest_make_one(sizes: list[Range], part: Fraction) -> None:
    first, rest = account(sizes, [part, "rest"]).outs
    assert first.part.low + rest.part.low == 1
    assert volume(first) + volume(rest) == Range(
        sum((s.low for s in sizes), Fraction(0)), sum((s.high for s in sizes), Fraction(0))
    )


@given(PARTS, st.lists(SHARES, max_size=5))
def test_what_was_put_by_is_dealt_out_in_full_and_no_further(part: Fraction, shares: list[Said]) -> None:
    ledger = ledger_of([exactly(24)], [])
    kept = ledger.apply(TakeOut("glaze", part, 50, "kept"))
    assert kept is not None
    for at, share in enumerate(shares):
        ledger.apply(TakeOut(kept.reserve, share, 60 + at))
    reserve = ledger.accounts[kept.reserve]
    assert reserve.whole == kept.size
    assert sum((out.part.low for out in reserve.outs), Fraction(0)) + reserve.left.low == 1
