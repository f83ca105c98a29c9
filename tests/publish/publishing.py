"""Publishing a dish and reading it again, for the tests that hold what is published against its draft."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from pathlib import Path

from extract.check.checking import check
from extract.check.written import read_written
from extract.measure.drafts.convert import convert
from extract.measure.drafts.scale import scale
from extract.model import RecipeDraft
from extract.publish.building import recipes_of
from extract.publish.recipe import Edition, Recipe
from extract.publish.writers import writer_for

SEEN = "what is seen of the page"
FORMS = ("page", "jsonld", "markdown", "text", "docx", SEEN)
SIZES: dict[str, Callable[[RecipeDraft], RecipeDraft]] = {
    "as said": lambda draft: draft,
    "half": partial(scale, factor="1/2"),
    "double": partial(scale, factor=2),
    "triple": partial(scale, factor=3),
    "metric": partial(convert, to="metric"),
    "American": partial(convert, to="us"),
}


def published(found: RecipeDraft, number: int, form: str, folder: Path) -> Path:
    """The file of one dish; "what is seen of the page" is the page without its data."""
    return _written(recipes_of(found)[number], form, folder / str(number))


def _written(recipe: Recipe, form: str, place: Path) -> Path:
    writer = writer_for("page" if form == SEEN else form)
    content = writer.write(Edition((recipe,)))
    path = place.with_suffix(writer.suffix)
    if isinstance(content, bytes):
        path.write_bytes(content)
    else:
        seen = re.sub(r"<script.*?</script>", "", content, flags=re.DOTALL) if form == SEEN else content
        path.write_text(seen, encoding="utf-8")
    return path


def disagreements(found: RecipeDraft, forms: Sequence[str], folder: Path) -> list[tuple[str, ...]]:
    """What a check tells of every dish in each form, held against the whole draft as a user would."""
    return list(_disagreements(found, forms, folder))


def _disagreements(found: RecipeDraft, forms: Sequence[str], folder: Path) -> Iterator[tuple[str, ...]]:
    for number, recipe in enumerate(recipes_of(found)):
        for form in forms:
            reports = check(found, read_written(_written(recipe, form, folder / str(number))))
            met = [report.dish for report in reports]
            if met != [found.dishes[number].title]:
                yield (form, recipe.title, "held against", *met)
            for each in (each for report in reports for each in report.differences):
                yield form, recipe.title, each.kind, each.about, each.said, each.written
