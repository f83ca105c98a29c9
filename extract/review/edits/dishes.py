"""Edits of whole dishes and of the cut: what they are called and make, where one ends, what is left out."""

from __future__ import annotations

from typing import Any

from extract.errors import CardwrightError
from extract.model import Dish, Evidence, RecipeDraft
from extract.review.edits import forms
from extract.review.edits.evidence import by_reviewer, is_reviewers
from extract.review.edits.parts import batch_typed
from extract.review.edits.stretches import (
    in_order,
    joined,
    leave_out_talk,
    move_items,
    set_stretches,
    stretches_of,
    take_from_talk,
    without,
)
from extract.review.keys import find_dish, opened
from extract.review.typed import clock_text, made_text, read_clock, read_made

_NO_LENGTH = "that stretch has no length"
_NEAR = 2.0  # seconds between two dishes that are taken to have one bound between them


def set_dish(draft: RecipeDraft, edit: forms.SetDish) -> RecipeDraft:
    """Correct what a dish is called, makes, its batch, and its bounds."""
    index = find_dish(draft, edit.dish)
    draft, dish = opened(draft, index)
    if edit.title is not None:
        title = " ".join(edit.title.split())
        if not title:
            problem = "a dish needs a title"
            raise CardwrightError(problem)
        dish.title = title
    if edit.makes is not None and edit.makes.strip() != made_text(dish.yield_):
        _set_makes(dish, edit.makes)
    if edit.batch is not None:
        dish.batch = batch_typed(dish.batch, edit.batch, dish.start)
    for bound, text in (("start", edit.start), ("end", edit.end)):
        if text is not None and text.strip() != clock_text(getattr(dish, bound)):
            draft = _set_bound(draft, index, bound, read_clock(text))
    return draft


def _set_makes(dish: Dish, text: str) -> None:
    made = read_made(text)
    if made is not None:
        said = dish.yield_.said if dish.yield_ else []
        made.said = by_reviewer(said, "yield", text.strip(), dish.start)
    dish.yield_ = made


def _set_bound(draft: RecipeDraft, index: int, bound: str, at: float) -> RecipeDraft:
    """Move the beginning or the end of a dish; a bound that it shares with its neighbour moves for both."""
    dish = draft.dishes[index]
    other_bound = dish.end if bound == "start" else dish.start
    if (at >= other_bound) if bound == "start" else (at <= other_bound):
        problem = f"the dish would end before it begins ({clock_text(at)})"
        raise CardwrightError(problem)
    before = getattr(dish, bound)
    grows = at < before if bound == "start" else at > before
    low, high = sorted((before, at))
    beside = index - 1 if bound == "start" else index + 1
    if 0 <= beside < len(draft.dishes):
        draft = _share_out(draft, (index, beside), (low, high), grows=grows)
    draft, dish = opened(draft, index)
    spans = stretches_of(dish)
    set_stretches(dish, [*spans, (low, high)] if grows else without(spans, low, high))
    if grows:
        draft.talk = take_from_talk(draft.talk, low, high)
    else:
        draft.talk = list(draft.talk)
        _leave_out_rest(draft, low, high)
    return draft


def _leave_out_rest(draft: RecipeDraft, low: float, high: float) -> None:
    """Count to the talk what of a stretch belongs to no dish and is not left out already."""
    taken = [span for dish in draft.dishes for span in stretches_of(dish)]
    taken += [(part.start, part.end) for part in draft.talk]
    pieces = [(low, high)]
    for start, end in taken:
        pieces = without(pieces, start, end)
    for start, end in pieces:
        if end - start > _NEAR:
            leave_out_talk(draft, start, end, "talk")


def _share_out(
    draft: RecipeDraft, pair: tuple[int, int], span: tuple[float, float], *, grows: bool
) -> RecipeDraft:
    """Give what was said in ``span`` to the dish of the pair that has it now."""
    (index, beside), (low, high) = pair, span
    neighbour = draft.dishes[beside]
    if grows and not any(start < high and end > low for start, end in stretches_of(neighbour)):
        return draft
    meets = min(abs(neighbour.start - high), abs(neighbour.end - low))
    if not grows and meets > _NEAR:
        return draft
    draft, here = opened(draft, index)
    draft, there = opened(draft, beside)
    spans = stretches_of(there)
    left = without(spans, low, high) if grows else joined([*spans, span])
    if not left:
        problem = f'"{there.title}" would have no time left'
        raise CardwrightError(problem, remedy="join the two dishes instead")
    set_stretches(there, left)
    source, target = (there, here) if grows else (here, there)
    move_items(source, target, lambda moment: low <= moment < high)
    return draft


def join_dish(draft: RecipeDraft, edit: forms.JoinDish) -> RecipeDraft:
    """A dish and the one behind it as one, under the first one's title."""
    index = find_dish(draft, edit.dish)
    if index + 1 >= len(draft.dishes):
        problem = "no dish stands behind this one"
        raise CardwrightError(problem)
    draft, dish = opened(draft, index)
    other = draft.dishes[index + 1].model_copy(deep=True)
    set_stretches(dish, [*stretches_of(dish), *stretches_of(other)])
    for part in other.components:
        same = next((mine for mine in dish.components if mine.name == part.name), None)
        if same is None:
            dish.components.append(part)
        else:
            same.ingredients += part.ingredients
            same.portions += part.portions
            same.leftovers += part.leftovers
    dish.method = in_order([*dish.method, *other.method])
    dish.questions += other.questions
    dish.equipment += [item for item in other.equipment if item not in dish.equipment]
    dish.yield_ = dish.yield_ or other.yield_
    dish.batch = dish.batch or other.batch
    dishes = [one for at, one in enumerate(draft.dishes) if at != index + 1]
    return draft.model_copy(update={"dishes": dishes})


def cut_dish(draft: RecipeDraft, edit: forms.CutDish) -> RecipeDraft:
    """Two dishes of one: what was said from a moment on goes to the second."""
    index = find_dish(draft, edit.dish)
    draft, dish = opened(draft, index)
    if not dish.start < edit.at < dish.end:
        problem = f"{clock_text(edit.at)} is not within this dish"
        raise CardwrightError(
            problem, remedy=f"it runs from {clock_text(dish.start)} to {clock_text(dish.end)}"
        )
    new = Dish(title=" ".join(edit.title.split()) or "Second dish")
    spans = stretches_of(dish)
    set_stretches(new, without(spans, dish.start, edit.at))
    end = dish.end
    set_stretches(dish, without(spans, edit.at, end))
    move_items(dish, new, lambda moment: moment >= edit.at)
    return draft.model_copy(update={"dishes": [*draft.dishes[: index + 1], new, *draft.dishes[index + 1 :]]})


def leave_out(draft: RecipeDraft, edit: forms.LeaveOut) -> RecipeDraft:
    """Take a stretch out of a dish: values that rest on its words alone go, others lose those words."""
    index = find_dish(draft, edit.dish)
    draft, dish = opened(draft, index)
    spans = stretches_of(dish)
    rest = without(spans, edit.start, edit.end)
    if edit.end <= edit.start or rest == spans:
        problem = "no time of this dish lies in that stretch"
        raise CardwrightError(problem)
    if not rest:
        return drop_dish(draft, forms.DropDish(do="drop dish", dish=edit.dish, reason=edit.reason))
    _without_words(dish, edit.start, edit.end)
    set_stretches(dish, rest)
    draft.talk = list(draft.talk)
    for low, high in joined(spans):
        start, end = max(low, edit.start), min(high, edit.end)
        if end > start:
            leave_out_talk(draft, start, end, edit.reason.strip() or "talk")
    return draft


def _without_words(dish: Dish, start: float, end: float) -> None:
    def stays(item: Any) -> bool:
        kept: list[Evidence] = [one for one in item.said if is_reviewers(one) or not start <= one.start < end]
        lost = bool(item.said) and not kept
        item.said = kept or item.said
        return not lost

    for part in dish.components:
        part.ingredients = [line for line in part.ingredients if stays(line)]
        part.portions = [share for share in part.portions if stays(share)]
        part.leftovers = [share for share in part.leftovers if stays(share)]
    dish.method = [step for step in dish.method if stays(step)]
    for step in dish.method:
        step.actions = [action for action in step.actions if stays(action)]
    dish.questions = [question for question in dish.questions if stays(question)]
    dish.yield_ = dish.yield_ if dish.yield_ and stays(dish.yield_) else None
    dish.batch = dish.batch if dish.batch and stays(dish.batch) else None


def drop_dish(draft: RecipeDraft, edit: forms.DropDish) -> RecipeDraft:
    """Take a whole dish out as no recipe."""
    index = find_dish(draft, edit.dish)
    dish = draft.dishes[index]
    dishes = [one for at, one in enumerate(draft.dishes) if at != index]
    draft = draft.model_copy(update={"dishes": dishes, "talk": list(draft.talk)})
    for start, end in stretches_of(dish):
        leave_out_talk(draft, start, end, edit.reason.strip() or "talk")
    return draft


def add_dish(draft: RecipeDraft, edit: forms.AddDish) -> RecipeDraft:
    """A dish that was missed: what another dish has of its stretch goes to it; more words can be made lines."""
    if edit.end <= edit.start:
        raise CardwrightError(_NO_LENGTH)
    new = Dish(title=" ".join(edit.title.split()) or "New dish")
    set_stretches(new, [(edit.start, edit.end)])
    draft = _taken_from_others(draft, new, edit.start, edit.end)
    dishes = sorted([*draft.dishes, new], key=lambda dish: dish.start)
    return draft.model_copy(update={"dishes": dishes})


def take_in(draft: RecipeDraft, edit: forms.TakeIn) -> RecipeDraft:
    """Count a stretch to a dish: what another dish has of it goes with it, what was left out is so no more."""
    index = find_dish(draft, edit.dish)
    if edit.end <= edit.start:
        raise CardwrightError(_NO_LENGTH)
    draft, dish = opened(draft, index)
    set_stretches(dish, [*stretches_of(dish), (edit.start, edit.end)])
    draft = _taken_from_others(draft, dish, edit.start, edit.end)
    return draft.model_copy(update={"dishes": sorted(draft.dishes, key=lambda one: one.start)})


def _taken_from_others(draft: RecipeDraft, taker: Dish, start: float, end: float) -> RecipeDraft:
    """Take a stretch from every other dish, with what was said in it, and from what was left out."""
    for index, other in enumerate(draft.dishes):
        spans = stretches_of(other)
        left = without(spans, start, end)
        if other is taker or left == spans:
            continue
        if not left:
            problem = f'"{other.title}" would have no time left'
            raise CardwrightError(problem, remedy="join the two dishes instead")
        draft, there = opened(draft, index)
        set_stretches(there, left)
        move_items(there, taker, lambda moment: start <= moment < end)
    return draft.model_copy(update={"talk": take_from_talk(draft.talk, start, end)})


def name_talk(draft: RecipeDraft, edit: forms.NameTalk) -> RecipeDraft:
    """Say why a stretch is left out; of a stretch that is not, nothing changes."""
    talk = [
        part.model_copy(update={"start": low, "end": high, "reason": edit.reason.strip()})
        for part in draft.talk
        for low, high in [(max(part.start, edit.start), min(part.end, edit.end))]
        if low < high
    ]
    rest = take_from_talk(draft.talk, edit.start, edit.end)
    return draft.model_copy(update={"talk": sorted([*rest, *talk], key=lambda part: part.start)})
