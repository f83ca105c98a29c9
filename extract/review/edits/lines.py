"""Edits of ingredient lines, of the parts of a dish, and of the shares taken from what was made."""

from __future__ import annotations

from typing import Literal

from extract.check.written.lines.line import read_line
from extract.errors import CardwrightError
from extract.model import Component, Dish, Ingredient, Portion, RecipeDraft
from extract.review.edits import forms
from extract.review.edits.evidence import by_reviewer, from_words
from extract.review.keys import Gone, find_dish, find_line, find_part, key_of, opened
from extract.review.typed import amount_text, read_amount, spoken_line

_FOOD = "give the food a name"
Fraction = float | Literal["rest", "some", "all"]
_NAMED: dict[str, Fraction] = {"rest": "rest", "some": "some", "all": "all"}


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
    if note and note not in line.note:
        line.note = f"{line.note}; {note}" if line.note else note
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


def name_part(draft: RecipeDraft, edit: forms.NamePart) -> RecipeDraft:
    """Name a part; the steps that belong to it follow. A name that another part has joins the two."""
    index, place = find_part(draft, edit.part)
    draft, dish = opened(draft, index)
    part, name = dish.components[place], " ".join(edit.name.split())
    for step in dish.method:
        if step.component == part.name and part.name:
            step.component = name
    same = next((other for other in dish.components if other is not part and other.name == name), None)
    part.name = name
    if same is not None:
        same.ingredients += part.ingredients
        same.portions += part.portions
        same.leftovers += part.leftovers
        dish.components.remove(part)
    return draft


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
