"""One HTML page a dish, complete in one file: for a screen, light or dark, for print, and for programs."""

from __future__ import annotations

import json
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING

from extract.publish.phrases import facts, share_line, tail_text, typeset
from extract.publish.recipe import Edition, Recipe
from extract.publish.wording import word
from extract.publish.words import capital, clock
from extract.publish.writers.jsonld import at_moment, has_clip, recipe_data
from extract.publish.writers.writer import Writer

if TYPE_CHECKING:
    from jinja2 import Template

# Beyond these, by trial in Chromium, the ordinary print may run on to a third sheet.
_MANY_LINES, _MUCH_TEXT = 45, 3000
_HARMLESS = {"<": "\\u003c", ">": "\\u003e", "&": "\\u0026", "\u2028": "\\u2028", "\u2029": "\\u2029"}


def write(edition: Edition) -> str:
    """The page of the one recipe of ``edition``; every text of it is escaped by the template."""
    (recipe,) = edition.recipes
    template, style = _template()
    return template.render(
        recipe=recipe,
        media_url=edition.media_url,
        facts=list(facts(recipe)),
        is_long=_is_long(recipe),
        style=style,
        data=script_data(recipe_data(recipe, edition.media_url)),
    )


def _is_long(recipe: Recipe) -> bool:
    """Whether a recipe needs the smaller print to stay on two sheets of the shorter paper, Letter."""
    return len(recipe.lines) > _MANY_LINES or sum(len(step.text) for step in recipe.steps) > _MUCH_TEXT


def script_data(data: object) -> str:
    """JSON that cannot end the script it stands in: "<", ">" and "&" as escapes of their own."""
    text = json.dumps(data, ensure_ascii=False, indent=1)
    return "".join(_HARMLESS.get(char, char) for char in text)


@cache
def _template() -> tuple[Template, str]:
    """The template and the style sheet of the package."""
    from jinja2 import Environment, StrictUndefined

    folder = files("extract.publish") / "templates"
    surroundings = Environment(
        autoescape=True, undefined=StrictUndefined, keep_trailing_newline=True, auto_reload=False
    )
    surroundings.globals.update(
        word=word,
        capital=capital,
        clock=clock,
        typeset=typeset,
        tail_text=tail_text,
        share_line=share_line,
        has_clip=has_clip,
        at_moment=at_moment,
    )
    page = (folder / "page.html").read_text(encoding="utf-8")
    return surroundings.from_string(page), (folder / "page.css").read_text(encoding="utf-8")


WRITER = Writer(".html", write)
