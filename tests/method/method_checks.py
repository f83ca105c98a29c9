"""What is wrong with a drafted method on its face, told without any answer to hold it against.

Each check takes a dish of a draft and gives its violations as "kind: words". The cook's own words in quotation
marks are left aside: they are held against the talk, not against the rules of a written method.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from extract.model import Dish, Step
from extract.spot.names.foods import same_food

QUOTED = re.compile(r"“[^”]*”(?: \(\d+:\d\d\))?")
PRONOUN = re.compile(
    r"(?:^|\b(?:and|then) |, )(?:do not )?(?:gently |well )?(\w+)(?: (?:in|out|up|down|on|off|over))? (it|them)\b",
    re.I,
)
DETERMINED = re.compile(r"\bthe (?:it|them|everything|the|some|half|rest of the it)\b", re.I)
UNTIL = re.compile(r"\buntil ((?:[^.]|\.(?=\d))*)", re.I)
NEEDS_OBJECT = re.compile(
    r"^(?:Then |Meanwhile, |Gently )?(?:Add|Put|Remove|Pour|Cut|Chop|Slice|Grate|Peel|Turn|Place|Spread|Brush|Press|"
    r"Start with|Wrap|Lift|Scrape|Sprinkle|Take|Lay|Set)"
    r"(?: (?:in|out|off|away|up|down|over|on|aside))?(?: (?:to|into|from|onto|with|for|until|at|over|in|on) .*)?$"
)
VERBLESS = re.compile(r"^(?:(?:it|they|you|the|a|an|all|some|just|is|are|\w+ly) )*\w+$", re.I)
SHARE = re.compile(
    r"\b(?:(?:other )?half|a third|two thirds|a quarter|three quarters|the rest) of the ([\w -]+)", re.I
)
SHARED = re.compile(r"\b(?:half|thirds?|quarters?|rest|remaining|other|left|last)\b", re.I)
NEAR = 12.0  # seconds


def violations(dish: Dish) -> Iterator[str]:
    """Everything wrong with the method of a dish."""
    for number, step in enumerate(dish.method, 1):
        for kind, words in step_violations(dish, step):
            yield f"{kind}: step {number}: {words}"
    yield from (f"share lost: {name}" for name in lost_shares(dish))
    yield from (f"put in again: {text}" for text in doubled(dish))


def sentences(text: str) -> list[str]:
    """The sentences of a step that are no quotation."""
    plain = QUOTED.sub("", text)
    return [s.strip() for s in re.split(r"\.(?!\d)", plain) if s.strip()]


def step_violations(dish: Dish, step: Step) -> Iterator[tuple[str, str]]:
    """The violations within one step."""
    told = sentences(step.text)
    for text in told:
        if told.count(text) > 1:
            yield "said twice", text
        if NEEDS_OBJECT.match(text):
            yield "no object", text
        if DETERMINED.search(text):
            yield "article before a pronoun", text
        if any(not is_whole(match[1]) for match in UNTIL.finditer(text)):
            yield "until without a verb", text
    if told and step.text.startswith(told[0]) and PRONOUN.match(told[0]):
        yield "opens with a pronoun", told[0]
    for before, text in pairwise(["", *told]):
        if PRONOUN.match(text) and (not before or PRONOUN.match(before)):
            yield "pronoun far from its name", text
    for name in stray(dish, step, told):
        yield "in no line", name


def is_whole(until: str) -> bool:
    """Whether an until-clause has something that is so: more than a name or one bare word."""
    words = until.split()
    return len(words) >= 2 and words[-1] not in {"the", "a", "it", "and", "is", "are", "to", "of"}


def stray(dish: Dish, step: Step, told: list[str]) -> Iterator[str]:
    """What a step adds that is in no line and no part of the dish."""
    known = [line.name for part in dish.components for line in part.ingredients]
    known += [part.name for part in dish.components if part.name]
    known += [word for part in dish.components for line in part.ingredients for word in line.alternatives]
    for text in told:
        found = re.match(
            r"(?:Add|Start with) (?:the )?(.*?)(?: (?:to|into|on|over|and cook|until|for|with)\b|, then|$)",
            text,
        )
        for name in re.split(r", | and ", re.sub(r"\([^)]*\)", "", found[1]) if found else ""):
            thing = re.sub(
                r"^(?:(?:other )?half|a third|a quarter|the rest|some) of the |^the ", "", name.strip()
            )
            if thing and not any(
                same_food(thing, own) or set(thing.split()) & set(own.split()) for own in known
            ):
                yield thing


def lost_shares(dish: Dish) -> Iterator[str]:
    """The shares of made things, divided by the ledger, whose words no step near their moment tells."""
    for part in dish.components:
        for portion in part.portions:
            divided = portion.fraction == "rest" or (
                isinstance(portion.fraction, float) and portion.fraction < 1
            )
            if (
                divided
                and portion.said
                and not any(tells_share(step, portion.said[0].start) for step in dish.method)
            ):
                yield f"{portion.fraction} of the {portion.of}"


def tells_share(step: Step, moment: float) -> bool:
    """Whether a step made around a moment tells a share, in its own words or the cook's."""
    near = any(said.start - NEAR <= moment <= said.end + NEAR for said in step.said)
    return near and bool(SHARED.search(step.text))


def doubled(dish: Dish) -> Iterator[str]:
    """Foods of one line that are added whole in two steps."""
    names = [line.name for part in dish.components for line in part.ingredients]
    once = {name for name in names if names.count(name) == 1}
    found: dict[str, int] = {}
    for step in dish.method:
        for text in sentences(step.text):
            added = re.match(r"(?:Add|Start with) (?:the )?(.*)", text)
            if added is None or SHARE.search(text) or "(" in text:
                continue
            for name in re.split(r", | and ", added[1]):
                if name in once:
                    found[name] = found.get(name, 0) + 1
    yield from (name for name, times in found.items() if times > 1)
