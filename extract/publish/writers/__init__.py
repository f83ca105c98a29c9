"""The forms a recipe is published in, a module each, and those that other packages add.

A package adds a form with an entry point of the group ``cardwright.writers`` that names a ``Writer``.
"""

from __future__ import annotations

from importlib import import_module
from importlib.metadata import entry_points

from extract.errors import CardwrightError
from extract.publish.writers.writer import Writer

GROUP = "cardwright.writers"
# Each form with its module, which is imported when the form is asked for.
KINDS = {
    "page": "page",
    "jsonld": "jsonld",
    "markdown": "markdown",
    "text": "text",
    "docx": "document",
    "captions": "captions",
    "chapters": "chapters",
    "sheet": "sheet",
}


def kinds() -> list[str]:
    """The names of all forms, the program's own first."""
    added = {entry.name for entry in entry_points(group=GROUP)}
    return [*KINDS, *sorted(added.difference(KINDS))]


def writer_for(kind: str) -> Writer:
    """The writer of a form.

    Raises CardwrightError where there is none of the name, or the package that adds it does not work.
    """
    if kind in KINDS:
        found = import_module(f"extract.publish.writers.{KINDS[kind]}").WRITER
        assert isinstance(found, Writer)
        return found
    for entry in entry_points(group=GROUP, name=kind):
        return _loaded(kind, entry.load, entry.value)
    problem = f'"{kind}" is no form of publication'
    raise CardwrightError(problem, remedy=f"one of {', '.join(kinds())}")


def _loaded(kind: str, load: object, where: str) -> Writer:
    try:
        assert callable(load)
        found = load()
    except Exception as error:
        problem = f'the form "{kind}" cannot be loaded from {where}: {error}'
        raise CardwrightError(problem, remedy="mend or remove the package that adds it") from error
    if not isinstance(found, Writer):
        problem = f'the form "{kind}" of {where} is no extract.publish.writers.writer.Writer'
        raise CardwrightError(problem, remedy="mend or remove the package that adds it")
    return found
