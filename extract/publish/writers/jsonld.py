"""schema.org JSON-LD: the recipe as other programs read it (Recipe, HowToSection, HowToStep, VideoObject, Clip)."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import datetime
from typing import Any
from urllib.parse import urldefrag, urlsplit

from extract.publish.phrases import line_text, share_line, short
from extract.publish.recipe import Edition, Recipe, Section, Share, Step
from extract.publish.wording import word
from extract.publish.writers.writer import Writer

_MEDIA = (".mp4", ".m4v", ".webm", ".mov", ".ogv", ".m3u8", ".mpd", ".mp3", ".m4a")
_CLIP_NAME = 60


def write(edition: Edition) -> str:
    """One object for one recipe, a list for several."""
    found = [recipe_data(recipe, edition.media_url) for recipe in edition.recipes]
    return json.dumps(found[0] if len(found) == 1 else found, ensure_ascii=False, indent=2) + "\n"


def recipe_data(recipe: Recipe, media_url: str = "") -> dict[str, Any]:
    """The recipe as a schema.org Recipe, ready for ``json.dumps``; what is not known is left out.

    A time is given only where all of it was said: an ISO 8601 duration cannot say "at least".
    """
    found: dict[str, Any] = {
        "@context": "https://schema.org",
        "@type": "Recipe",
        "name": recipe.title,
        "inLanguage": "en",
        "description": " ".join([*recipe.notices, *_warnings(recipe)]),
        "recipeYield": _makes(recipe),
        "prepTime": _exact(recipe, "preparation"),
        "cookTime": _exact(recipe, "cooking"),
        "totalTime": _exact(recipe, "total"),
        "suitableForDiet": [f"https://schema.org/{diet.member}" for diet in recipe.diets],
        "tool": [{"@type": "HowToTool", "name": item} for item in recipe.equipment],
        "recipeIngredient": [line_text(line) for line in recipe.lines],
        "recipeInstructions": list(_instructions(recipe)),
        "video": _video(recipe, media_url) if media_url else None,
        "creativeWorkStatus": None if recipe.editor else "Draft",
        "dateModified": _moment(recipe.reviewed) if recipe.editor else None,
    }
    return {key: value for key, value in found.items() if value not in (None, "", [])}


def _warnings(recipe: Recipe) -> Iterator[str]:
    """Allergens and cautions: no property of Recipe holds them, and they must not be lost on the way."""
    yield from (f"{line}." for line in recipe.allergens)
    if recipe.allergens:
        yield recipe.allergen_note
    if recipe.cautions:
        yield f"{word('cautions')}: {' '.join(recipe.cautions)}"


def _makes(recipe: Recipe) -> str:
    """What it makes in words: "24 pies", "4–6 servings"."""
    if recipe.makes is None:
        return ""
    label, words = recipe.makes
    return f"{words} servings" if label == word("serves") else words


def _exact(recipe: Recipe, kind: str) -> str | None:
    time = recipe.times.get(kind)
    return time.iso if time is not None and not time.least else None


def _moment(text: str) -> str | None:
    try:
        return datetime.fromisoformat(text).isoformat()
    except ValueError:
        return None


def _instructions(recipe: Recipe) -> Iterator[dict[str, Any]]:
    """Sections by the part of the dish; steps that need no heading stand by themselves. Each says its place."""
    place = 0
    for section in recipe.sections:
        if section.name:
            place += 1
            yield _section(section, place)
        else:
            for step in section.steps:
                place += 1
                yield _step(step, place)
    for share in untold_shares(recipe):
        place += 1
        yield {"@type": "HowToTip", "position": place, "text": f"{share_line(share)}."}


def untold_shares(recipe: Recipe) -> Iterator[Share]:
    """The shares of what is made that no step deals out in so many words, which would be lost beside the list."""
    steps = [step.text.lower() for step in recipe.steps]
    for part in recipe.parts:
        yield from (share for share in part.shares if not any(share.text.lower() in text for text in steps))


def _section(section: Section, place: int) -> dict[str, Any]:
    steps = [_step(step, number) for number, step in enumerate(section.steps, start=1)]
    return {"@type": "HowToSection", "position": place, "name": section.name, "itemListElement": steps}


def _step(step: Step, place: int) -> dict[str, Any]:
    notes = "".join(f" {word('note')}: {note}" for note in step.notes)
    return {"@type": "HowToStep", "position": place, "text": f"{step.text}{notes}"}


def _video(recipe: Recipe, media_url: str) -> dict[str, Any]:
    """The recording, with the stretch of each step as a Clip (Media Fragments "#t=start,end" in its address)."""
    kind = "contentUrl" if urlsplit(media_url).path.lower().endswith(_MEDIA) else "url"
    clips = [_clip(step, media_url) for step in recipe.steps if has_clip(step)]
    found = {"@type": "VideoObject", "name": recipe.title, kind: media_url, "hasPart": clips}
    return {key: value for key, value in found.items() if value != []}


def has_clip(step: Step) -> bool:
    """Whether a step is shown for a time."""
    return step.start is not None and step.end is not None and step.start < step.end


def _clip(step: Step, media_url: str) -> dict[str, Any]:
    assert step.start is not None
    assert step.end is not None
    start, end = round(step.start, 3), round(step.end, 3)
    return {
        "@type": "Clip",
        "name": short(step.text, _CLIP_NAME),
        "startOffset": start,
        "endOffset": end,
        "url": at_moment(media_url, f"{start:g},{end:g}"),
    }


def at_moment(media_url: str, moment: str) -> str:
    """The address of a moment in the recording, as W3C Media Fragments 1.0 writes it."""
    return f"{urldefrag(media_url).url}#t={moment}"


WRITER = Writer(".jsonld", write)
