"""What ``cardwright publish`` does between reading drafts and writing files."""

from __future__ import annotations

import sys
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlsplit

import click

from extract.drafts import write_atomic
from extract.errors import CardwrightError
from extract.model import Dish, RecipeDraft
from extract.publish.building import recipes_of
from extract.publish.notices import is_reviewed, must_be_answered
from extract.publish.recipe import Edition, Recipe
from extract.publish.writers.writer import Writer
from extract.review.mark import mark_of

_SLUG = 60


@dataclass(frozen=True, slots=True)
class Source:
    """A draft with the dishes of it that are asked for."""

    path: Path
    draft: RecipeDraft
    dishes: tuple[Dish, ...]

    @classmethod
    def of(cls, path: Path, draft: RecipeDraft, name: str) -> Source:
        """The draft with the dishes called ``name``, those with it in their title if none is, all without it."""
        wanted = " ".join(name.casefold().split())
        titles = [" ".join(dish.title.casefold().split()) for dish in draft.dishes]
        same = [dish for dish, title in zip(draft.dishes, titles, strict=True) if title == wanted]
        within = [dish for dish, title in zip(draft.dishes, titles, strict=True) if wanted in title]
        return cls(path, draft, tuple((same or within) if wanted else draft.dishes))

    @property
    def is_changed(self) -> bool:
        """Whether the draft is another than the one that was reviewed; False where the mark does not tell which was."""
        reviewed = self.draft.reviewed
        return reviewed is not None and bool(reviewed.draft) and not is_current(self.draft)

    @property
    def stem(self) -> str:
        """The draft's name without what every draft's name ends in."""
        return self.path.name.removesuffix(".json").removesuffix(".draft")


@dataclass(frozen=True, slots=True)
class File:
    """One file to be written: its name in a folder, and what it holds."""

    name: str
    content: str | bytes


def objections(source: Source) -> Iterator[str]:
    """What speaks against publishing a draft, a line each."""
    if not is_reviewed(source.draft):
        yield f"{source.path}: nobody has reviewed this draft"
    elif source.is_changed:
        yield f"{source.path}: this draft was changed after it was reviewed"
    for dish in source.dishes:
        for question in must_be_answered(dish, source.draft):
            yield f"{source.path}: {dish.title}: must be answered first: {question.text}"


def is_current(draft: RecipeDraft) -> bool:
    """Whether nothing of a draft has changed since it was marked as reviewed."""
    mark = mark_of(draft.to_dict())
    return mark is not None and bool(mark["current"])


def check_media_url(url: str, drafts: int) -> None:
    """Raise CardwrightError unless ``url`` is "" or a web address, and of one draft's recording."""
    if not url:
        return
    try:
        parts = urlsplit(url)
        sound = parts.scheme in ("http", "https") and bool(parts.hostname)
    except ValueError:
        sound = False
    if not sound or any(char.isspace() or unicodedata.category(char) == "Cc" for char in url):
        problem = f'--media-url: "{url}" is no web address'
        raise CardwrightError(problem, remedy="it begins with https:// or http://")
    if drafts > 1:
        problem = f"--media-url is one recording, and {drafts} drafts were given"
        raise CardwrightError(problem, remedy="publish them one by one")


def editions(sources: Sequence[Source], writer: Writer, media_url: str) -> list[File]:
    """Every file that a writer makes of the drafts, made before any is written.

    Raises CardwrightError where the form needs times and a recording has none, or the drafts have no dish.
    """
    made = [(source, _recipes(source, writer)) for source in sources]
    if not any(recipes for _, recipes in made):
        path = sources[0].path if sources else None
        problem = "there is no dish to publish"
        raise CardwrightError(problem, path=path)
    if writer.each == "all":
        name = made[0][0].stem if len(made) == 1 else "recipes"
        groups = [(name, [recipe for _, recipes in made for recipe in recipes])]
    elif writer.each == "show":
        groups = [(source.stem, recipes) for source, recipes in made if recipes]
    else:
        groups = [(_slug(recipe), [recipe]) for _, recipes in made for recipe in recipes]
    names = _apart([name for name, _ in groups])
    return [
        File(f"{name}{writer.suffix}", writer.write(Edition(tuple(recipes), media_url)))
        for name, (_, recipes) in zip(names, groups, strict=True)
    ]


def _recipes(source: Source, writer: Writer) -> list[Recipe]:
    if writer.timed and not source.draft.source.timed:
        problem = "the transcript of this draft has no times, so nothing can be put at a moment"
        raise CardwrightError(problem, path=source.path, remedy="draft it from captions that have them")
    try:
        return recipes_of(source.draft, source.dishes, changed=source.is_changed)
    except CardwrightError as error:
        if error.path is None:
            raise CardwrightError(error.problem, path=source.path, remedy=error.remedy) from error
        raise


def _slug(recipe: Recipe) -> str:
    """A file's name from a title: its letters and figures, of whatever script, joined by hyphens."""
    kept = "".join(
        char if char.isalnum() else " " for char in unicodedata.normalize("NFC", recipe.title.lower())
    )
    return "-".join(kept.split())[:_SLUG].strip("-") or "dish"


def _apart(names: list[str]) -> list[str]:
    """The names with a number behind those that came before."""
    found: list[str] = []
    for name in names:
        number, other = 1, name
        while other in found:
            number += 1
            other = f"{name}-{number}"
        found.append(other)
    return found


def write_all(
    files: Sequence[File], out: Path | None, drafts: Sequence[Path], *, replace: bool
) -> Iterator[Path]:
    """Write the files, or print the one text where no place was named; the paths as they are written.

    Nothing is written before all of it can be. Raises CardwrightError where a file is there already and was not
    asked to be replaced, would fall on a draft, or cannot be written.
    """
    if out is None:
        _print(files)
        return
    paths = _places(files, out)
    for path in paths:
        if any(path.exists() and draft.exists() and path.samefile(draft) for draft in drafts):
            problem = "this is the draft itself, which is never written over"
            raise CardwrightError(problem, path=path)
        if path.exists() and not replace:
            problem = "this file is there already"
            raise CardwrightError(problem, path=path, remedy="add --replace to write over it")
    for file, path in zip(files, paths, strict=True):
        _make_folder(path.parent)
        write_atomic(path, file.content)
        yield path


def _print(files: Sequence[File]) -> None:
    if len(files) > 1:
        problem = f"{len(files)} files need a place to go: add --out DIR, or choose one with --dish"
        raise click.UsageError(problem)
    (file,) = files
    if isinstance(file.content, bytes) and sys.stdout.isatty():
        problem = f"{file.name} is no text to be printed: add --out"
        raise click.UsageError(problem)
    click.echo(file.content, nl=False)


def _places(files: Sequence[File], out: Path) -> list[Path]:
    """Where each file goes: ``out`` is a file if it has a suffix and is no folder, else a folder."""
    if out.is_dir() or not out.suffix:
        return [out / file.name for file in files]
    if len(files) > 1:
        names = ", ".join(file.name for file in files[:3])
        problem = f"{len(files)} files cannot go into one ({names}{' and more' if len(files) > 3 else ''})"
        raise CardwrightError(problem, path=out, remedy="name a folder, or choose one with --dish")
    return [out]


def _make_folder(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        problem = f"this folder cannot be made: {error.strerror}"
        raise CardwrightError(problem, path=folder) from error
