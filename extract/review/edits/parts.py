"""Edits of the parts of a dish, their batches, and the shares taken from what was made."""

from __future__ import annotations

from typing import Literal

from extract.errors import CardwrightError
from extract.model import Batch, Component, Dish, Portion, RecipeDraft
from extract.review.edits import forms
from extract.review.edits.evidence import by_reviewer
from extract.review.keys import Gone, find_dish, find_part, key_of, opened
from extract.review.typed import batch_text, read_amount, read_factor

Fraction = float | Literal["rest", "some", "all"]
_NAMED: dict[str, Fraction] = {"rest": "rest", "some": "some", "all": "all"}


def set_part(draft: RecipeDraft, edit: forms.SetPart) -> RecipeDraft:
    """Name a part, or correct its batch; the steps that belong to it follow its name.

    A name that another part has joins the two.
    """
    index, place = find_part(draft, edit.part)
    draft, dish = opened(draft, index)
    part = dish.components[place]
    if edit.batch is not None:
        part.batch = batch_typed(part.batch, edit.batch, dish.start)
    if edit.name is not None:
        _name_part(dish, part, " ".join(edit.name.split()))
    return draft


def _name_part(dish: Dish, part: Component, name: str) -> None:
    for step in dish.method:
        if step.component == part.name and part.name:
            step.component = name
    same = next((other for other in dish.components if other is not part and other.name == name), None)
    part.name = name
    if same is not None:
        same.ingredients += part.ingredients
        same.portions += part.portions
        same.leftovers += part.leftovers
        same.batch = same.batch or part.batch
        dish.components.remove(part)


def batch_typed(batch: Batch | None, text: str, at: float) -> Batch | None:
    """The batch that was typed, with the reviewer's word; the one given where it is the same."""
    if text.strip() == batch_text(batch):
        return batch
    factor = read_factor(text)
    if factor is None:
        return None
    return Batch(factor=factor, said=by_reviewer(batch.said if batch else [], "batch", text.strip(), at))


def add_part(draft: RecipeDraft, edit: forms.AddPart) -> RecipeDraft:
    """A new, empty part at the end of the dish."""
    draft, dish = opened(draft, find_dish(draft, edit.dish))
    name = " ".join(edit.name.split())
    if any(part.name == name for part in dish.components):
        problem = f'this dish has a part "{name}" already' if name else "give the new part a name"
        raise CardwrightError(problem)
    dish.components.append(Component(name=name))
    return draft


def remove_part(draft: RecipeDraft, edit: forms.RemovePart) -> RecipeDraft:
    """Take out a part that holds nothing any more. Raises CardwrightError where it holds something."""
    index, place = find_part(draft, edit.part)
    draft, dish = opened(draft, index)
    part = dish.components[place]
    if part.ingredients or part.portions or part.leftovers:
        problem = "this part still holds lines"
        raise CardwrightError(problem, remedy="move or remove them first")
    del dish.components[place]
    for step in dish.method:
        if step.component == part.name:
            step.component = ""
    return draft


def set_share(draft: RecipeDraft, edit: forms.SetShare) -> RecipeDraft:
    """Correct a share of something made, or take it out."""
    for index, dish in enumerate(draft.dishes):
        if any(key_of(share) == edit.share for shares in _shares(dish) for share in shares):
            draft, dish = opened(draft, index)
            for shares in _shares(dish):
                for share in [one for one in shares if key_of(one) == edit.share]:
                    if edit.remove:
                        shares.remove(share)
                    else:
                        _correct(share, edit, dish.start)
            return draft
    problem = "this share is no longer in the draft"
    raise Gone(problem)


def _shares(dish: Dish) -> list[list[Portion]]:
    return [shares for part in dish.components for shares in (part.portions, part.leftovers)]


def _correct(share: Portion, edit: forms.SetShare, at: float) -> None:
    if edit.fraction is not None and edit.fraction.strip() != share_text(share):
        share.fraction = _fraction(edit.fraction)
        share.millilitres = share.millilitres_high = share.grams = share.grams_high = None
        share.said = by_reviewer(share.said, "fraction", edit.fraction.strip(), at)
    for field, text in (("of", edit.of), ("into", edit.into)):
        if text is not None and text.strip() != getattr(share, field):
            setattr(share, field, " ".join(text.split()))
            share.said = by_reviewer(share.said, field, text.strip(), at)


def share_text(share: Portion) -> str:
    """The fraction of a share, as it stands in its field: "1/2", "rest"."""
    from extract.measure.figures import exact, mixed

    return share.fraction if isinstance(share.fraction, str) else mixed(exact(share.fraction))


def _fraction(text: str) -> Fraction:
    """The share that was typed. Raises CardwrightError."""
    typed = text.strip().lower().removeprefix("the ")
    if typed in _NAMED:
        return _NAMED[typed]
    amount, _ = read_amount(typed)
    if amount is None or amount.unit or not 0 < amount.low <= 1:
        problem = f'"{text.strip()}" is no share'
        raise CardwrightError(problem, remedy="such as 1/2, two thirds, rest, some, all")
    return amount.low
