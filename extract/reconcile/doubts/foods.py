"""Doubts about foods: listed and never put in, put in and never listed, one name for two, two amounts for one."""

from __future__ import annotations

from collections.abc import Container, Iterator, Sequence

from extract.reconcile.doubts.doubts import TABLE, Doubt, around
from extract.reconcile.lines.components import component_at
from extract.reconcile.lines.general_words import kind_words
from extract.reconcile.lines.lines import Line, same_thing
from extract.reconcile.lines.uses import Use
from extract.reconcile.scene import Scene
from extract.reconcile.wording import fits, patterns
from extract.spot.names.foods import canonical, word_key
from extract.spot.shares.words import is_one_of
from extract.spot.spans import Amount, Food

CORRECTED = 40  # tokens within which a second amount corrects the first
LONGEST_MENTION = 8  # tokens of an amount and its food beyond which they may not belong together
NEEDED = 0.5
LIST_GAP = 9
LIST_LEAD = 7
LEAST_LIST = 3
ALWAYS_THERE = frozenset({"salt", "black pepper", "pepper", "water", "oil"})


def food_doubts(scene: Scene) -> Iterator[Doubt]:
    """Every doubt about the foods of one dish."""
    foods = [food for food in scene.spotted.foods if scene.dish.holds(food.start)]
    yield from never_put_in(scene, foods)
    yield from never_introduced(scene)
    yield from fished_out(scene, foods)
    yield from which_one(scene)
    yield from two_amounts(scene)


def food_lists(scene: Scene) -> Iterator[list[Line]]:
    """The lines first named in one list that the cook opens as what is needed."""
    ordered = sorted(scene.lines, key=lambda line: line.at)
    run: list[Line] = []
    for line in ordered:
        if run and line.at - run[-1].uses[0].mention.end > LIST_GAP:
            if opens_list(scene, run):
                yield run
            run = []
        run.append(line)
    if run and opens_list(scene, run):
        yield run


def opens_list(scene: Scene, run: Sequence[Line]) -> bool:
    """Whether words of needing stand just before or within the first foods of a run that is not in a pan yet."""
    if len(run) < 2 or any(line.component for line in run):
        return False  # what is listed for a part is what the part is made of
    wording, ends = scene.wording, [line.uses[0].mention.end for line in run]
    if fits(TABLE, "in there", wording.part(run[0].at - LIST_LEAD, ends[-1] + LIST_LEAD)):
        return False
    before = (wording.part(line.at - LIST_LEAD, line.at) for line in run[:2])
    return any(fits(TABLE, "need", words) for words in before) or fits(
        TABLE, "need", wording.part(ends[0], ends[0] + 4)
    )


def is_needed(scene: Scene, run: Sequence[Line]) -> bool:
    """Whether a list is of what is needed, rather than of what the cook has there and may be putting in."""
    return fits(TABLE, "needed", scene.wording.part(run[0].at - LIST_LEAD, run[1].at))


def never_put_in(scene: Scene, foods: Sequence[Food]) -> Iterator[Doubt]:
    """Foods of a list that no later word takes up, though it does take up others of the list."""
    for run in food_lists(scene):
        end = run[-1].uses[0].mention.end
        later = [food for food in foods if food.start >= end]
        kinds = kinds_named(scene, end)
        left = [line for line in run if not is_named(line, later, kinds)]
        taken = len(run) - len(left)
        if (
            not taken
            or len(left) > taken
            or fits(TABLE, "all of it", scene.wording.part(end, scene.dish.end))
        ):
            continue
        needed = is_needed(scene, run)
        for line in left:
            if line.optional or line.put_in or line.food.mended or not (line.measured or needed):
                continue
            name = line.name.capitalize()
            text = f"{name} is among what you say is needed, and no later word puts it in. Where does it go?"
            yield Doubt("never put in", line.name, text, (around(scene, line.at),))


def is_named(line: Line, later: Sequence[Food], kinds: Container[str]) -> bool:
    """Whether later words name a line's food, by its name, its head, a longer or shorter name, or its kind."""
    keys = {canonical(line.name), line.food.head}
    named = any(
        keys & {canonical(food.name), food.head} or same_thing(line.name, food.name) for food in later
    )
    return named or any(kind in kinds for kind in line.food.kinds)


def kinds_named(scene: Scene, start: int) -> set[str]:
    """The kinds of food that words for a kind ("the meat", "your veg") take up after a token."""
    doc, words = scene.spotted.speech.doc, scene.wording.words
    found: set[str] = set()
    for at in range(start, scene.dish.end):
        kinds = kind_words().get(word_key(words[at]))
        compound = at + 1 < len(words) and doc[at + 1].pos_ in {"NOUN", "PROPN"}
        definite = words[at - 1] == "all" or is_one_of(words[at - 1], "determiner")
        if kinds and definite and not compound:
            found.update(kinds)
    return found


def never_introduced(scene: Scene) -> Iterator[Doubt]:
    """Foods put in that a list said to be complete does not hold."""
    dish = scene.dish
    for pattern in patterns(TABLE, "complete"):
        for _, end in scene.wording.find(pattern, dish.start, dish.end):
            listed = list(run_from(scene, end)) if dish.holds(end) else []
            if len(listed) >= LEAST_LIST:
                yield from _unlisted(scene, listed)


def run_from(scene: Scene, at: int) -> Iterator[Line]:
    """The lines of the list that begins just after a token."""
    reach = at + LIST_LEAD
    for line in sorted(scene.lines, key=lambda line: line.at):
        if line.at < at:
            continue
        if line.at > reach:
            return
        yield line
        reach = line.uses[0].mention.end + LIST_GAP


def _unlisted(scene: Scene, listed: Sequence[Line]) -> Iterator[Doubt]:
    for line in scene.lines:
        if line in listed or line.at < listed[-1].at or canonical(line.name) in ALWAYS_THERE or line.optional:
            continue
        text = f"The {line.name} goes in, and is not among what you said is needed. How much of it is it?"
        yield Doubt("never introduced", line.name, text, (around(scene, line.at),))


def fished_out(scene: Scene, foods: Sequence[Food]) -> Iterator[Doubt]:
    """Foods taken out again that no word put in."""
    seen: set[str] = set()
    for food in foods:
        words = scene.wording
        text = words.part(food.start - 4, food.start) + "X " + words.part(food.end, food.end + 4)
        flavours = bool(food.kinds & {"herb", "spice"}) and fits(TABLE, "fished out", text)
        if flavours and not any(same_thing(food.name, name) for name in seen):
            asked = f"The {food.name} is taken out again, and it was never put in. When does it go in, and how much?"
            yield Doubt("never introduced", food.name, asked, (around(scene, food.start),))
        seen.add(food.name)


def which_one(scene: Scene) -> Iterator[Doubt]:
    """A name such as "the sugar" put in where two sugars lie ready and neither has gone in."""
    told: set[str] = set()
    for use in scene.uses:
        food = use.mention.food
        unnamed = " " in food.name or food.plural or food.name in told or use.mention.amount is not None
        if unnamed or not use.put_in or not use.definite:
            continue
        here = component_at(scene.parts, food.start)
        lines = [line for line in scene.lines if line.component == here and _is_kind_of(line, food)]
        meant = {canonical(line.name): line for line in lines}
        if len(meant) < 2 or food.kinds & {"made", "generic"}:
            continue
        told.add(food.name)
        first, second = list(meant.values())[:2]
        text = (
            f"Both the {first.name} and the {second.name} lie ready. Which of them is the {food.name} here?"
        )
        spans = (around(scene, food.start), around(scene, first.at), around(scene, second.at))
        yield Doubt("which one", food.name, text, spans)


def _is_kind_of(line: Line, food: Food) -> bool:
    """Whether a line is of a longer name of that head or kind, was measured before, and not put in before."""
    before = [use for use in line.uses if use.mention.start < food.start]
    longer = " " in line.name and food.name in (line.name.split()[-1], *line.food.kinds)
    return longer and bool(before) and line.measured and not any(use.put_in for use in before)


def is_restated(scene: Scene, line: Line, use: Use, amount: Amount) -> bool:
    """Whether an amount said again is one for the whole line: told as what is needed, no part of it that goes in.

    What stands close behind the first is a correction; an amount far from its food may be another's.
    """
    first = min((u.mention.start for u in line.uses if u.mention.amount is line.amount), default=0)
    after = scene.wording.words[amount.end] if amount.end < len(scene.wording.words) else ""
    near = abs(use.mention.start - first) < CORRECTED or use.mention.end - use.mention.start > LONGEST_MENTION
    part = after == "of" or (amount.low is not None and amount.low < 1 and not amount.unit)
    needed = scene.spotted.reading.role_of(use.mention.start, use.mention.end, "need")
    return not (near or part) and needed > NEEDED


def two_amounts(scene: Scene) -> Iterator[Doubt]:
    """One food of which an amount is told again, and differently."""
    for line in scene.lines:
        said = line.amount
        for use in line.uses:
            other = use.mention.amount
            if said is None or other is None or None in (said.low, other.low):
                continue
            if other.unit != said.unit or (other.low, other.high) == (said.low, said.high) or other.more:
                continue
            if not is_restated(scene, line, use, other):
                continue
            first = next(u for u in line.uses if u.mention.amount is said)
            text = f"Two amounts are said for the {line.name}. Which of them is right?"
            spans = tuple((u.mention.start, u.mention.end) for u in (first, use))
            yield Doubt("two amounts", line.name, text, spans)
            break
