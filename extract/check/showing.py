"""A report for a person: tables in a terminal, or a page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape
from typing import TYPE_CHECKING

from extract.check.report import WEIGHTS, Agreement, Difference, Report
from extract.publish.words import capital, clock

if TYPE_CHECKING:
    from rich.console import Console
    from rich.table import Table

NOTE = (
    "Neither side is called right: listen to the moment, read the line. A comparison of words is no check of "
    "allergens or of safe temperatures; those follow labels and your local food code."
)
_HEADS = {
    "changes the dish": "Changes the dish",
    "worth a look": "Worth a look",
    "wording": "Wording, or said by one side alone and small",
}
_STYLE = """
body { font: 1rem/1.5 system-ui, sans-serif; max-width: 60rem; margin: 2rem auto; padding: 0 1rem; }
table { border-collapse: collapse; width: 100%; margin-bottom: 2rem; }
caption { text-align: left; font-weight: bold; padding: .5rem 0; }
th, td { text-align: left; vertical-align: top; padding: .4rem .6rem; border-bottom: 1px solid #8886; }
@media print { body { margin: 0; } tr { break-inside: avoid; } }
"""


def summary(report: Report) -> str:
    """How many differences of each weight, and how many things agree."""
    counts = [sum(found.weight == weight for found in report.differences) for weight in WEIGHTS]
    changing, looking, wording = counts
    parts = [
        f"{changing} that {'change' if changing != 1 else 'changes'} the dish",
        f"{looking} worth a look",
        f"{wording} of wording",
    ]
    return f"Differences: {', '.join(parts)}. {len(report.agreements)} things agree."


def kind_words(found: Difference) -> str:
    """What kind of difference it is, in words that name no side right."""
    if found.kind == "missing":
        return "said, not written"
    if found.kind == "extra":
        return "written, not said"
    return found.kind


def moment_words(found: Difference | Agreement) -> str:
    """When it was said, "" where it was not."""
    return "" if found.start is None else clock(found.start)


def line_words(found: Difference | Agreement) -> str:
    """The number of the written line, "" where it is not written."""
    return "" if found.line is None else str(found.line)


def show(report: Report, console: Console, *, agreements: bool = False) -> None:
    """Print the report to a terminal, or as plain text where there is none."""
    console.print(f"[bold]{_plain(capital(report.dish))}[/bold]: what was said against what is written")
    for weight in WEIGHTS:
        rows = [found for found in report.differences if found.weight == weight]
        if rows:
            console.print(_table(_HEADS[weight], rows))
    if agreements and report.agreements:
        console.print(_agreeing(report.agreements))
    console.print(summary(report))
    if report.differences:
        console.print(NOTE, style="dim")


def _plain(text: str) -> str:
    from rich.markup import escape as plain

    return plain(text)


def _table(title: str, rows: Sequence[Difference]) -> Table:
    table = _empty(title, "What", "Said", "Written")
    for found in rows:
        what = f"{found.about} ({kind_words(found)})"
        cells = (moment_words(found), line_words(found), what, found.said or "-", found.written or "-")
        table.add_row(*(_plain(cell) for cell in cells))
    return table


def _agreeing(rows: Sequence[Agreement]) -> Table:
    table = _empty("Agree", "What", "Said", "Written", "Why")
    for found in rows:
        cells = (moment_words(found), line_words(found), found.about, found.said, found.written, found.why)
        table.add_row(*(_plain(cell) for cell in cells))
    return table


def _empty(title: str, *heads: str) -> Table:
    """A table with the two places first, which never wrap, and the words behind them, which may."""
    from rich.box import SIMPLE_HEAD
    from rich.table import Table

    table = Table(title=title, title_justify="left", title_style="bold", box=SIMPLE_HEAD, expand=True)
    for place in ("Time", "Line"):
        table.add_column(place, justify="right", no_wrap=True)
    for head in heads:
        table.add_column(head, ratio=1, overflow="fold")
    return table


def html_page(reports: Sequence[Report], *, agreements: bool = False) -> str:
    """All reports as one page that stands by itself, fit to print."""
    title = escape("; ".join(capital(report.dish) for report in reports))
    body = "\n".join(part for report in reports for part in _sections(report, agreements=agreements))
    head = (
        f'<meta charset="utf-8">\n<title>{title}: said against written</title>\n'
        f'<meta name="viewport" content="width=device-width">\n<style>{_STYLE}</style>'
    )
    note = f"<p><small>{escape(NOTE)}</small></p>"
    return (
        f'<!doctype html>\n<html lang="en">\n<head>\n{head}\n</head>\n'
        f"<body>\n<main>\n{body}\n{note}\n</main>\n</body>\n</html>\n"
    )


def _sections(report: Report, *, agreements: bool) -> Iterator[str]:
    yield f"<h1>{escape(capital(report.dish))}: said against written</h1>\n<p>{escape(summary(report))}</p>"
    for weight in WEIGHTS:
        rows = [found for found in report.differences if found.weight == weight]
        if rows:
            heads = ("What", "Kind", "Said", "Time", "Written", "Line")
            cells = [
                (
                    found.about,
                    kind_words(found),
                    found.said,
                    moment_words(found),
                    found.written,
                    line_words(found),
                )
                for found in rows
            ]
            yield _html_table(_HEADS[weight], heads, cells)
    if agreements and report.agreements:
        heads = ("What", "Said", "Time", "Written", "Line", "Why")
        agreed = [
            (found.about, found.said, moment_words(found), found.written, line_words(found), found.why)
            for found in report.agreements
        ]
        yield _html_table("Agree", heads, agreed)


def _html_table(caption: str, heads: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    head = "".join(f'<th scope="col">{escape(text)}</th>' for text in heads)
    lines = [
        f'<tr><th scope="row">{escape(cells[0])}</th>'
        + "".join(f"<td>{escape(cell)}</td>" for cell in cells[1:])
        + "</tr>"
        for cells in rows
    ]
    return (
        f"<table>\n<caption>{escape(caption)}</caption>\n<thead><tr>{head}</tr></thead>\n<tbody>\n"
        + "\n".join(lines)
        + "\n</tbody>\n</table>"
    )
