"""What differs between the shares that the two sides deal out of what was made."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, product

from rapidfuzz import fuzz

from extract.check.pairs.dishes import Sides
from extract.check.pairs.foods import LIKELY, alike
from extract.check.pairs.pairing import Pairing, best_assignment
from extract.check.report import Finding, Place
from extract.check.words import first_moment, share_text
from extract.check.written.lines.tokens import tokens_of
from extract.check.written.method.portions import find_written_shares
from extract.model import Dish, Portion
from extract.spot.names.foods import word_key

_FLOOR = 0.8
_TOLERANCE = 0.02
_STEM = 3
_BREATH = 15.0  # seconds


@dataclass(frozen=True, slots=True)
class Share:
    """A portion with its value worked out: "the rest" is what the shares before it leave, None if unknown.

    ``rank`` counts the shares of one thing; ``planned``: another share of it was dealt out in the next breath, which
    tells what for and not when; ``also``: the name that the other side gives what is shared, "" where
    it has none.
    """

    portion: Portion
    value: float | None
    place: float
    rank: int = 0
    planned: bool = False
    also: str = ""

    @property
    def text(self) -> str:
        """The share in words."""
        return share_text(self.portion.fraction, self.portion.of)

    @property
    def is_told(self) -> bool:
        """Whether the share is a figure of its own, not what others leave."""
        return not isinstance(self.portion.fraction, str)

    @property
    def where(self) -> Place:
        """When it was said, or the line on which it is written."""
        line = self.portion.written.line if self.portion.written else None
        return Place(first_moment(self.portion.said), line)


def shares_of(dish: Dish) -> list[Share]:
    """Every share of a dish, in the order of recording or page, those that leave it among them."""
    parts = dish.components
    portions = [portion for part in parts for portion in (*part.portions, *part.leftovers)]
    portions += _told_in_steps(dish, [portion.of for portion in portions])
    portions.sort(
        key=lambda portion: (
            first_moment(portion.said) or 0.0,
            portion.written.line if portion.written else 0,
        )
    )
    left: list[tuple[str, float]] = []
    found: list[Share] = []
    for index, portion in enumerate(portions):
        value = _value(portion, left)
        portion = portion.model_copy(update={"of": _whole(portion.of)})
        rank = sum(same_thing(share.portion.of, portion.of) for share in found)
        place = index / max(1, len(portions) - 1)
        found.append(Share(portion, value, place, rank, _is_planned(portion, portions)))
    return found


def _is_planned(portion: Portion, portions: Sequence[Portion]) -> bool:
    start = first_moment(portion.said)
    others = [other for other in portions if other is not portion and same_thing(other.of, portion.of)]
    starts = [first_moment(other.said) for other in others]
    return start is not None and any(at is not None and 0 < abs(at - start) <= _BREATH for at in starts)


def _told_in_steps(dish: Dish, known: Sequence[str]) -> list[Portion]:
    """The shares of a said method's own words that are of no portion: "two thirds of the cheddar"."""
    found: list[Portion] = []
    for step in dish.method:
        if step.written is not None:
            continue
        shares = find_written_shares(tokens_of(step.text))
        found += [
            Portion(fraction=share.fraction, of=share.of, into="", said=step.said)
            for share in shares
            if share.of and not any(same_thing(share.of, name) for name in known)
        ]
    return found


def _value(portion: Portion, left: list[tuple[str, float]]) -> float | None:
    """The share as a number; ``left`` holds what is left of each thing and is brought up to date."""
    of = _whole(portion.of)
    at = next((place for place, (name, _) in enumerate(left) if same_thing(name, of)), None)
    remaining = left[at][1] if at is not None else 1.0
    value: float | None = None
    if portion.fraction == "rest":
        value = remaining if at is not None else None
    elif portion.fraction == "all":
        value = 1.0
    elif not isinstance(portion.fraction, str):
        value = portion.fraction * (remaining if of != portion.of else 1.0)
    if value is not None and value > remaining + _TOLERANCE:
        remaining = 1.0  # a share of what an earlier one put by: "half of the syrup in the jug"
    rest = max(0.0, remaining - (value or 0.0))
    if at is None:
        left.append((of, rest))
    else:
        left[at] = (of, rest)
    return value


def _whole(name: str) -> str:
    """What was made, where the name says that what is left of it is meant: "the remaining seeds"."""
    return name.removeprefix("remaining ").removeprefix("rest of the ").removeprefix("rest of ")


def same_thing(one: str, other: str) -> bool:
    """Whether two names are of one made thing: "dip" and "dipping sauce", "rub" and "spice rub"."""
    if alike(one, other) >= LIKELY:
        return True
    first, second = ([word_key(word) for word in name.split()] for name in (one, other))
    return any(_one_stem(a, b) for a in first for b in second)


def _one_stem(one: str, other: str) -> bool:
    short, long = sorted((one, other), key=len)
    return len(short) >= _STEM and long.startswith(short)


def share_findings(sides: Sides, pairing: Pairing) -> Iterator[Finding]:
    """Shares that agree, that differ, and that one side alone deals out."""
    ours, theirs = shares_of(sides.said), _renamed(shares_of(sides.written), pairing)
    equal = best_assignment(ours, theirs, _equal_closeness, floor=_FLOOR)
    for one, other in equal:
        yield _both(ours[one], theirs[other])
    left = _without([one for one, _ in equal], ours, [])
    right = _without([other for _, other in equal], theirs, [])
    left, right = _summed(left, right), _summed(right, left)
    unequal = best_assignment(left, right, _closeness, floor=_FLOOR)
    # Where a told share differs, "the rest" of the same thing differs with it and is not told twice.
    pairs = sorted(((left[one], right[other]) for one, other in unequal), key=_is_rest)
    told: list[str] = []
    for share, partner in pairs:
        if _is_rest((share, partner)) and any(same_thing(share.portion.of, name) for name in told):
            continue
        told.append(share.portion.of)
        yield _both(share, partner)
    for share in _without([one for one, _ in unequal], left, theirs):
        if share.is_told:
            yield share.where.differ("portion", share.portion.of, (share.text, ""), "wording")
    own = {step.text for number, step in enumerate(sides.written.method) if number in sides.drafted}
    for share in _without([other for _, other in unequal], right, ours):
        in_own_words = share.portion.written is not None and share.portion.written.text in own
        if share.is_told and not in_own_words:
            yield share.where.differ("portion", share.portion.of, ("", share.text), "wording")


def paired_shares(sides: Sides, pairing: Pairing) -> list[tuple[Share, Share]]:
    """The told shares that are of one thing on either side, whatever their size."""
    ours, theirs = shares_of(sides.said), _renamed(shares_of(sides.written), pairing)
    pairs = [
        (ours[one], theirs[other]) for one, other in best_assignment(ours, theirs, _closeness, floor=_FLOOR)
    ]
    return [pair for pair in pairs if pair[0].is_told and pair[1].is_told]


def _renamed(shares: Sequence[Share], pairing: Pairing) -> list[Share]:
    """Written shares that also answer to the said name of their component: the "dip" is the "sauce".

    Two components are one where most of their lines are paired with one another.
    """
    votes: dict[str, Counter[str]] = {}
    for pair in pairing.pairs:
        for said, written in product(pair.said, pair.written):
            votes.setdefault(written.component, Counter())[said.component] += 1
    names = {written: count.most_common(1)[0][0] for written, count in votes.items() if written}
    found = []
    for share in shares:
        part = next((name for name in sorted(names, key=len) if same_thing(name, share.portion.of)), "")
        found.append(replace(share, also=names.get(part, "")))
    return found


def _without(taken: Sequence[int], shares: Sequence[Share], others: Sequence[Share]) -> list[Share]:
    """The shares that found no partner and are no repetition of one that the other side has."""
    alone = [share for place, share in enumerate(shares) if place not in taken]
    return [share for share in alone if not any(_equal_closeness(share, other) for other in others)]


def _summed(shares: Sequence[Share], others: Sequence[Share]) -> list[Share]:
    """The shares with those one after another that come to one of the other side's as that one.

    "A third of the cream, then the rest" is "the other two thirds", where a third went in before.
    """
    found = list(shares)
    for other in others:
        alike = [share for share in found if share.value and _closeness(share, other)]
        for first, second in pairwise(alike):
            whole = replace(second, value=(first.value or 0.0) + (second.value or 0.0))
            if equal_shares(whole, other) and other.value:
                found[found.index(first)] = replace(whole, portion=other.portion, place=first.place)
                found.remove(second)
                break
    return found


def _is_rest(pair: tuple[Share, Share]) -> bool:
    return "rest" in (pair[0].portion.fraction, pair[1].portion.fraction)


def equal_shares(one: Share, other: Share) -> bool:
    """Whether two shares are one; "some" may be any, and so may a rest of what is not known."""
    if one.value is None or other.value is None:
        return True
    return abs(one.value - other.value) <= _TOLERANCE or one.portion.fraction == other.portion.fraction


def _equal_closeness(one: Share, other: Share) -> float:
    turned = (
        one.is_told != other.is_told and one.rank != other.rank
    )  # "a third, then the rest" for "two thirds"
    return _closeness(one, other) if equal_shares(one, other) and not turned else 0.0


def _closeness(one: Share, other: Share) -> float:
    if not any(name and same_thing(one.portion.of, name) for name in (other.portion.of, other.also)):
        return 0.0
    into = fuzz.token_set_ratio(one.portion.into, other.portion.into) / 100
    return _FLOOR + 0.3 * into + 0.3 * (1 - abs(one.place - other.place))


def _both(one: Share, other: Share) -> Finding:
    place, texts = Place(one.where.start, other.where.line), (one.text, other.text)
    about = _plainest(one.portion.of, other.portion.of)
    if equal_shares(one, other):
        return place.agree(about, texts, "the same share")
    return place.differ("portion", about, texts, "changes the dish")


def _plainest(said: str, written: str) -> str:
    """The said name, or the written where it is the same in fewer words: "garlic", not "roasted garlic"."""
    return written if set(written.split()) < set(said.split()) else said
