"""From many mentions to the lines of an ingredient list: one line a food and a use.

The reader tells where a line stands, where it is only spoken of again and where a stand-in is offered; here mentions of
one food become one line, and each line gets the amount, the name and the stand-ins that its mentions bring.
"""

from __future__ import annotations

from collections.abc import Container, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cache

from extract.reconcile.lines.general_words import covers
from extract.reconcile.lines.uses import Use
from extract.spot.names.foods import kinds_of, meaning, same_food
from extract.spot.spans import Amount, Food

LINE = 0.56
TOGETHER = 0.68  # the likelihood of a line that several unsure mentions of one food add up to
AGAIN = 0.3
GOES_IN = 0.7  # the likelihood of being a line or of speaking of one, from which a food has a line somewhere
STAND_IN = 0.35
REACH = 60  # tokens behind its line within which a stand-in is offered
OPTIONAL = 0.5
# Tokens within which a food told with no amount may be the one before, though the reader takes it for a new line.
NEAR = 60
BREATH = 3  # tokens between two foods told together


@dataclass
class Line:
    """One line as it grows while the talk is read. ``amount`` has no figures until some are said."""

    name: str
    uses: list[Use]
    amount: Amount | None = None
    alternatives: list[str] = field(default_factory=list)
    component: str = ""
    optional: bool = False
    at: int = 0

    @property
    def put_in(self) -> bool:
        """Whether some mention has put it in already, rather than named it among what is needed."""
        return any(use.put_in for use in self.uses)

    @property
    def score(self) -> float:
        """The likelihood of the mention that is surest to be the line's."""
        return max(use.line for use in self.uses)

    @property
    def measured(self) -> bool:
        """Whether an amount in figures was said."""
        return self.amount is not None and self.amount.low is not None

    @property
    def telling(self) -> list[Use]:
        """The mentions that tell how much of it there is; the first one where none does."""
        told = [use for use in self.uses if self.amount is not None and use.mention.amount is self.amount]
        return told or self.uses[:1]

    @property
    def surest(self) -> Use:
        """The mention at which the line stands."""
        return max(self.uses, key=lambda use: use.line)

    @property
    def food(self) -> Food:
        """The food as first named."""
        return self.uses[0].mention.food


def build_lines(
    uses: Sequence[Use], *, alone: bool = False, shared: Container[int] = frozenset()
) -> list[Line]:
    """The lines of one dish in order of use; talk is left out.

    ``alone``: the show has no other dish, so that a food which is only spoken of again goes into this one.
    ``shared``: the tokens of shares; "the other half of the cheese" is of the cheese that has its line.
    """
    lines: list[Line] = []
    standing = _standing(uses, alone=alone)
    for number, use in enumerate(uses):
        if use.mention.food.start in shared and (line := _spoken_of(lines, use)) is not None:
            line.uses.append(use)
        elif number in standing:
            line = _same_use(lines, use)
            if line is None:
                lines.append(_new_line(use))
            else:
                _join(line, use)
        elif use.instead >= STAND_IN:
            _offer(lines, use)
        elif max(use.again, use.line) >= AGAIN and (line := _spoken_of(lines, use)) is not None:
            _join(line, use)
    for line in lines:
        line.optional = line.surest.optional >= OPTIONAL
    return lines


def _standing(uses: Sequence[Use], *, alone: bool) -> set[int]:
    """The mentions that are lines: those likely to be one; of a food that goes in by its mentions, though none is
    likely by itself to be its line, the first that brings an amount, or the surest."""
    found = {n for n, use in enumerate(uses) if use.line >= LINE}
    for group in _groups(uses):
        if found.isdisjoint(group):
            missing = 1.0
            for n in group:
                missing *= 1 - uses[n].line
            worked = max((uses[n].score for n in group), default=0.0)
            if 1 - missing >= TOGETHER or (alone and worked >= GOES_IN):
                found.add(max(group, key=lambda n: (_is_measured(uses[n]), uses[n].line, -n)))
    return found


def _is_measured(use: Use) -> bool:
    return use.mention.amount is not None and use.mention.amount.low is not None and use.score >= AGAIN


def _groups(uses: Sequence[Use]) -> Iterator[list[int]]:
    """The mentions of each food."""
    groups: list[list[int]] = []
    for n, use in enumerate(uses):
        name = use.mention.food.name
        own = next((g for g in groups if same_thing(uses[g[0]].mention.food.name, name)), None)
        if own is None:
            groups.append([n])
        else:
            own.append(n)
    yield from groups


def _new_line(use: Use) -> Line:
    return Line(use.mention.food.name, [use], use.mention.amount, at=use.mention.start)


def _same_use(lines: Sequence[Line], use: Use) -> Line | None:
    """The line that a mention which could be one of its own only completes: it lacks what this one brings."""
    same = [line for line in lines if same_thing(line.name, use.mention.food.name)]
    if not same:
        return None
    amount = use.mention.amount
    if amount is None or amount.low is None:
        near = [li for li in same if use.mention.start - li.uses[-1].mention.end <= NEAR]
        return near[-1] if near and use.line < 0.9 else next((li for li in same if not li.measured), None)
    open_ = [line for line in same if not line.measured]
    if open_:
        return open_[-1]
    equal = [li for li in same if li.amount and _equal(li.amount, amount) and not _in_one_breath(li, use)]
    return equal[-1] if equal else None  # an amount told twice is, nine times in ten, one line


def _spoken_of(lines: Sequence[Line], use: Use) -> Line | None:
    """The line that a mention speaks of again, by its name or by a word for its kind."""
    name = use.mention.food.name
    same = [line for line in lines if same_thing(line.name, name)]
    if same:
        return same[-1]
    kind = [li for li in lines if use.definite and covers(name, li.food)]
    return max(kind, key=lambda line: line.uses[-1].mention.end, default=None)


def _offer(lines: Sequence[Line], use: Use) -> None:
    """A stand-in goes to the line named last before it, of its kind if one is near."""
    name = use.mention.food.name
    near = [line for line in lines if 0 <= use.mention.start - line.uses[-1].mention.end <= REACH]
    alike = [line for line in near if line.food.kinds & use.mention.food.kinds]
    own = (alike or near)[-1:]
    if own and _is_other(name, own[0].name) and name not in own[0].alternatives:
        own[0].alternatives.append(name)


def _is_other(name: str, line: str) -> bool:
    """Whether a name is more than the line's own: "canned peas" for dried ones, but not "peas"."""
    return not set(name.split()) <= set(line.split()) and meaning(name).keys != meaning(line).keys


def _in_one_breath(line: Line, use: Use) -> bool:
    """Whether two foods of the lexicon are told one after the other: "a cup of cream and a cup of sour cream"."""
    one, other = meaning(line.name).entry, meaning(use.mention.food.name).entry
    near = 0 <= use.mention.start - line.uses[-1].mention.end <= BREATH
    return near and one is not None and other is not None and one.name != other.name


def _equal(one: Amount, other: Amount) -> bool:
    return (one.low, one.high, one.unit) == (other.low, other.high, other.unit)


def same_thing(one: str, other: str) -> bool:
    """Whether two names can stand for one thing in one dish: synonyms, or a head noun for the whole name."""
    first, second = one.split(), other.split()
    if first[-1:] != second[-1:] and _keys(one).isdisjoint(_keys(other)):
        return False
    if same_food(one, other):
        return True
    return first[-1:] == second[-1:] and 1 in (len(first), len(second))


@cache
def _keys(name: str) -> frozenset[str]:
    """The words of what a name means: two names for one food share some of them."""
    return frozenset(meaning(name).keys)


def _join(line: Line, use: Use) -> None:
    """A further mention of the same use: it may bring the amount, a longer name, more evidence."""
    line.uses.append(use)
    amount, name = use.mention.amount, use.mention.food.name
    if amount is not None and (line.amount is None or (line.amount.low is None and amount.low is not None)):
        line.amount = amount
    if len(name.split()) > len(line.name.split()) and kinds_of(name) & kinds_of(line.name):
        line.name = name


def resolve_again(uses: Sequence[Use]) -> list[Use]:
    """ "The same weight again": such an amount takes the figures of the one before it."""
    last: Amount | None = None
    resolved = []
    for use in uses:
        amount = use.mention.amount
        if amount is not None and amount.again and last is not None:
            amount = replace(amount, low=last.low, high=last.high, unit=last.unit)
            use = replace(use, mention=replace(use.mention, amount=amount))
        if amount is not None and amount.low is not None and amount.unit:
            last = amount
        resolved.append(use)
    return resolved
