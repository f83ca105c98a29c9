"""From many mentions to the lines of an ingredient list: one line a food and a use.

A food named again for the same use is the same line; put in again with an amount of its own it is another.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cache

from extract.reconcile.general_words import covers
from extract.reconcile.uses import Use
from extract.spot.food_names import kinds_of, meaning, same_food
from extract.spot.spans import Amount, Food

THRESHOLD = 0.8
# Tokens within which a food may be told of again, with another amount than before.
TOLD_REACH = 60
# A mention that speaks so much against being an ingredient neither makes a line nor adds to one.
TALK = -0.5
SERVING_UNITS = frozenset({"slice", "piece", "", "fillet", "sheet"})
# Foods that a cook reaches for again and again, each time for a use of its own.
STAPLES = frozenset({"fat", "oil", "flour", "sugar", "spice"})
FURTHER_REACH = 25


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
        return any(u.put_in for u in self.uses)

    @property
    def put_on(self) -> bool:
        """Whether it is only put on by its verb ("butter the tin"), a use that no amount is ever told for."""
        return all("made verb" in u.features for u in self.uses)

    @property
    def score(self) -> float:
        """The evidence that this is an ingredient: the best mention, and a little for every further one."""
        scores = sorted((u.score for u in self.uses), reverse=True)
        return scores[0] + sum(0.25 * max(0.0, min(s, 2.0)) for s in scores[1:4])

    @property
    def measured(self) -> bool:
        """Whether an amount in figures was said."""
        return self.amount is not None and self.amount.low is not None

    @property
    def telling(self) -> list[Use]:
        """The mentions that tell how much of it there is; the first one where none does."""
        told = [u for u in self.uses if self.amount is not None and u.mention.amount is self.amount]
        return told or self.uses[:1]

    @property
    def food(self) -> Food:
        """The food as first named."""
        return self.uses[0].mention.food


def build_lines(uses: Sequence[Use], alternatives: Mapping[int, int]) -> list[Line]:
    """The lines of one dish in order of use, talk left out.

    ``alternatives`` maps the index of a use that only offers a stand-in to that of the food it stands in for; one
    that stands in for itself makes no line.
    """
    lines: list[Line] = []
    owner: dict[int, Line] = {}
    method = min((u.mention.start for u in uses if u.put_in), default=0)
    for i, use in enumerate(uses):
        if use.score < TALK or "total" in use.features:
            continue
        if i in alternatives:
            target = owner.get(alternatives[i])
            if target is not None and use.mention.food.name not in target.alternatives:
                target.alternatives.append(use.mention.food.name)
            continue
        line = _same_use(lines, use, method)
        if line is None and _is_serving(use):
            continue
        if line is None:
            line = _new_line(use)
            lines.append(line)
        else:
            _join(line, use)
        owner[i] = line
    kept = [line for line in lines if line.score >= THRESHOLD and not _only_named(line)]
    for line in kept:
        line.optional = any("optional" in u.features for u in line.telling)
    return kept


def _new_line(use: Use) -> Line:
    mention = use.mention
    return Line(mention.food.name, [use], mention.amount, at=mention.start)


def _is_serving(use: Use) -> bool:
    """ "A slice of the pork", where this dish has no pork: something else on the plate."""
    amount = use.mention.amount
    return "part of it" in use.features and amount is not None and amount.unit in SERVING_UNITS


def _same_use(lines: Sequence[Line], use: Use, method: int) -> Line | None:
    """The line this mention belongs to, or None where it begins one of its own.

    ``method`` is the token at which the first food goes in: what was named before it was only listed.
    """
    same = [line for line in lines if same_thing(line.name, use.mention.food.name)]
    if not same:
        return _spoken_of(lines, use)
    amount = use.mention.amount
    if amount is None or amount.low is None or "part of it" in use.features:
        line = next((li for li in reversed(same) if not li.put_on), same[-1])
        if "made verb" in use.features and same[-1].put_on:
            line = same[-1]
        return None if _further_use(line, use, method) else line
    for line in (li for li in reversed(same) if not li.put_on):
        if not line.measured:
            return line
        if line.amount is not None and _equal(line.amount, amount) and _said_again(line, use, method):
            return line
    return next((line for line in reversed(same) if _told_otherwise(line, use)), None)


def _spoken_of(lines: Sequence[Line], use: Use) -> Line | None:
    """The line named shortly before that "the pepper" takes up in a general word, where nothing goes by that name.

    A food in a row with another ("the salt and the pepper") is named beside it, not taken up.
    """
    amount = use.mention.amount
    if "definite" not in use.features or "in a row" in use.features or (amount and amount.low is not None):
        return None
    near = (li for li in lines if 0 <= use.mention.start - li.uses[-1].mention.end <= TOLD_REACH)
    fitting = [line for line in near if not line.put_on and covers(use.mention.food.name, line.food)]
    return max(fitting, key=lambda line: line.uses[-1].mention.end, default=None)


def _told_otherwise(line: Line, use: Use) -> bool:
    """ "When your two cups of sugar have melted", after one cup went in: the same sugar, told another way."""
    said, other = line.amount, use.mention.amount
    if said is None or other is None or other.more or not said.unit or said.unit != other.unit:
        return False
    near = use.mention.start - line.uses[-1].mention.end <= TOLD_REACH
    return near and "possessed" in use.features and not use.put_in


def _said_again(line: Line, use: Use, method: int) -> bool:
    """Whether an equal amount is the same one told again, not the same measure put in a second time."""
    if use.features & {"definite", "possessed", "told again"}:
        return True
    listed = line.at < method or "need" in line.uses[0].features
    return listed and not line.put_in


def _further_use(line: Line, use: Use, method: int) -> bool:
    """ "Dust the board with flour", "and a little salt": a staple put in again, bare, some while after its
    measured use, is a use of its own."""
    if "made verb" in use.features:
        return line.measured
    if not use.mention.food.kinds & STAPLES or not line.measured or "bare" not in use.features:
        return False
    in_use = line.put_in or line.at >= method
    again = use.put_in or "vague amount" in use.features
    last = max(u.mention.end for u in line.uses)
    return in_use and again and use.mention.start - last >= FURTHER_REACH


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
    if len(name.split()) > len(line.name.split()):
        line.name = name


def _only_named(line: Line) -> bool:
    """Dishes and made things are not lines unless they are measured out."""
    kinds = kinds_of(line.name)
    return bool(kinds & {"dish", "made"}) and not (line.measured and line.amount and line.amount.unit)


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
