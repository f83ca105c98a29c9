"""The finished page as it will read, and the written version held against the draft."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from extract.errors import CardwrightError
from extract.model import RecipeDraft

if TYPE_CHECKING:
    from markdown_it import MarkdownIt


def page_html(draft: RecipeDraft, dish: int) -> str:
    """One dish of the Markdown page as HTML. Text of the talk is never markup; links lead to moments alone."""
    from extract.publish.markdown import dish_blocks

    blocks = dish_blocks(draft.dishes[dish], draft.source.timed)
    return str(_markdown().render("\n\n".join(blocks) + "\n"))


def page_text(draft: RecipeDraft) -> str:
    """The whole Markdown page, to take away."""
    from extract.publish.markdown import page

    return page(draft)


@cache
def _markdown() -> MarkdownIt:
    from markdown_it import MarkdownIt

    reader = MarkdownIt("commonmark", {"html": False})
    reader.disable(["image", "html_inline", "html_block", "autolink"])
    reader.validateLink = lambda url: url.startswith("#t=")  # type: ignore[method-assign]
    return reader


class WrittenSide:
    """The written version of the recipe, read once and held against the draft as often as that changes."""

    def __init__(self, path: Path) -> None:
        from extract.check.written import read_written

        self.path = path
        self.written = read_written(path)

    def differences(self, draft: RecipeDraft) -> list[dict[str, Any]]:
        """One row a difference, the weightiest first; one that says so where no dish is like the written one."""
        from extract.check.checking import check

        try:
            reports = check(draft, self.written)
        except CardwrightError as error:
            return [{"about": "", "kind": "", "said": "", "written": "", "weight": str(error), "start": None}]
        return [
            {"dish": report.dish, **found.model_dump(mode="json")}
            for report in reports
            for found in report.differences
        ]
