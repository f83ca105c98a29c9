"""Edits of ingredient lines."""

from __future__ import annotations

from extract.check.written.lines.line import read_line
from extract.errors import CardwrightError
from extract.model import Ingredient, RecipeDraft
from extract.review.edits import forms
from extract.review.edits.evidence import by_reviewer, from_words, is_reviewers
from extract.review.keys import find_line, find_part, key_of, opened
from extract.review.typed import amount_text, read_amount, spoken_line

_FOOD = "give the food a name"


def set_line(draft: RecipeDraft, edit: forms.SetLine) -> RecipeDraft:
    """Correct the fields of a line that are given; each that differs gets the reviewer as its evidence."""
    index, place, at = find_line(draft, edit.line)
    draft, dish = opened(draft, index)
    line = dish.components[place].ingredients[at]
    if edit.amount is not None:
        set_amount(line, edit.amount, dish.start)
    if edit.name is not None and not edit.name.strip():
        problem = "a line needs a food"
        raise CardwrightError(problem, remedy=f"{_FOOD}, or remove the line")
    texts = {"name": edit.name, "preparation": edit.preparation, "note": edit.note}
    for field, text in texts.items():
        wanted = None if text is None else " ".join(text.split())
        if wanted is not None and wanted != getattr(line, field):
            setattr(line, field, wanted)
            line.said = by_reviewer(line.said, field, wanted, dish.start)
    if edit.alternatives is not None:
        others = [" ".join(other.split()) for other in edit.alternatives.split(";") if other.strip()]
        if others != line.alternatives:
            line.alternatives = others
            line.said = by_reviewer(line.said, "alternatives", "; ".join(others), dish.start)
    if edit.optional is not None and edit.optional != line.optional:
        line.optional = edit.optional
        word = "optional" if line.optional else "not optional"
        line.said = by_reviewer(line.said, "optional", word, dish.start)
    return draft


def set_amount(line: Ingredient, text: str, at: float) -> None:
    """Give ``line`` the amount that was typed, unless it is the one it has. Raises CardwrightError."""
    typed = " ".join(text.split())
    if typed == amount_text(line.amount):
        return
    amount, note = read_amount(typed)
    if line.amount is not None and amount is not None and (line.amount.model_extra or {}):
        amount.__pydantic_extra__ = dict(line.amount.model_extra or {})
    line.amount = amount
    line.counted_in = ""
    typed_before = {
        one.text.lower() for one in line.said if is_reviewers(one)
    }  # "to taste" gives way to a measure
    kept = [one for one in line.note.split("; ") if one and one not in typed_before]
    line.note = "; ".join([*kept, *([note] if note and note not in kept else [])])
    line.said = by_reviewer(line.said, "amount", typed or "no amount", at)


def add_line(draft: RecipeDraft, edit: forms.AddLine) -> RecipeDraft:
    """A new line, read from what was typed or chosen: "1 1/2 cups flour, sifted"."""
    index, place = find_part(draft, edit.part)
    draft, dish = opened(draft, index)
    text = edit.text.strip() or (edit.said.text if edit.said else "")
    if not text.strip():
        problem = "a new line has no words"
        raise CardwrightError(problem, remedy="type it as it would be printed, such as 2 cups flour")
    found = read_line(spoken_line(text) if edit.said else text)
    line = found[0] if found else Ingredient(name=" ".join(text.split()))
    line.written = None
    line.said = [from_words(edit.said)] if edit.said else by_reviewer([], "line", text.strip(), dish.start)
    lines = dish.components[place].ingredients
    lines.insert(_behind(lines, edit.after), line)
    return draft


def _behind(lines: list[Ingredient], after: str | None) -> int:
    places = [at for at, line in enumerate(lines) if key_of(line) == after]
    return places[0] + 1 if places else len(lines)


def remove_line(draft: RecipeDraft, edit: forms.RemoveLine) -> RecipeDraft:
    """Take a line out."""
    index, place, at = find_line(draft, edit.line)
    draft, dish = opened(draft, index)
    del dish.components[place].ingredients[at]
    return draft


def move_line(draft: RecipeDraft, edit: forms.MoveLine) -> RecipeDraft:
    """Put a line elsewhere in its part, in another part, or in another dish."""
    index, place, at = find_line(draft, edit.line)
    target, part = find_part(draft, edit.part)
    draft, dish = opened(draft, index)
    line = dish.components[place].ingredients.pop(at)
    if target != index:
        draft, dish = opened(draft, target)
    lines = dish.components[part].ingredients
    lines.insert(min(edit.at, len(lines)), line)
    return draft
