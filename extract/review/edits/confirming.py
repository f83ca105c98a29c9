"""A value that stands as the program heard it, confirmed by the reviewer."""

from __future__ import annotations

from extract.model import Ingredient, Portion, RecipeDraft, Step
from extract.review.edits import forms
from extract.review.edits.evidence import by_reviewer
from extract.review.edits.parts import share_text
from extract.review.keys import Gone, items_of, key_of, opened
from extract.review.typed import amount_text


def confirm(draft: RecipeDraft, edit: forms.Confirm) -> RecipeDraft:
    """Put the reviewer's word behind fields of a line, a share or a step; those that it has not are passed over."""
    for index, dish in enumerate(draft.dishes):
        if any(key_of(item) == edit.item for item in items_of(dish)):
            draft, dish = opened(draft, index)
            item = next(item for item in items_of(dish) if key_of(item) == edit.item)
            if isinstance(item, Ingredient | Portion | Step):
                for field, text in _values(item).items():
                    if field in edit.fields:
                        item.said = by_reviewer(item.said, field, text, dish.start)
            return draft
    problem = "this is no longer in the draft"
    raise Gone(problem)


def _values(item: Ingredient | Portion | Step) -> dict[str, str]:
    """The fields that can be confirmed, as they stand."""
    if isinstance(item, Ingredient):
        return {"name": item.name, "amount": amount_text(item.amount) or "no amount"}
    return {"fraction": share_text(item)} if isinstance(item, Portion) else {"text": item.text}
