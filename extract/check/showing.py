"""A report for a person: tables in a terminal, or a page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING

from extract.check.report import WEIGHTS, Agreement, Difference, Report, Weight
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
    counts = [len(rows_of(report, weight)) for weight in WEIGHTS]
    changing, looking, wording = counts
    parts = [
        f"{changing} that {'change' if changing != 1 else 'changes'} the dish",
        f"{looking} worth a look",
        f"{wording} of wording",
    ]
    return f"Differences: {', '.join(parts)}. {len(report.agreements)} things agree."


@dataclass(frozen=True, slots=True)
class Row:
    """A difference as a reader sees it: one food written in another's place is one row, not two."""

    found: Difference
    about: str
    kind: str
    said: str
    written: str


def rows_of(report: Report, weight: Weight) -> list[Row]:
    """The differences of one weight, each food that was exchanged for another drawn together."""
    found = [difference for difference in report.differences if difference.weight == weight]
    rows: list[Row] = []
    for place, one in enumerate(found):
        after = found[place + 1] if place + 1 < len(found) else None
        before = found[place - 1] if place else None
        if before is not None and _exchanged(before, one):
            continue
        if after is not None and _exchanged(one, after):
            about = f"{one.about} / {after.about}"
            rows.append(Row(one, about, "another food", one.said, after.written))
        else:
            rows.append(Row(one, one.about, kind_words(one), one.said, one.written))
    return rows


def _exchanged(one: Difference, other: Difference) -> bool:
    """Whether two differences are the two sides of one exchange: both have both places."""
    places = (one.start, one.line) == (other.start, other.line) and one.line is not None
    return (one.kind, other.kind) == ("missing", "extra") and places and not (one.written or other.said)


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
    console.print(f"[bold]{_plain(heading(report))}[/bold]: what was said against what is written")
    if report.doubt:
        console.print(_plain(report.doubt))
    for weight in WEIGHTS:
        rows = rows_of(report, weight)
        if rows:
            console.print(_table(_HEADS[weight], rows))
    if agreements and report.agreements:
        console.print(_agreeing(report.agreements))
    console.print(summary(report))


def show_note(reports: Sequence[Report], console: Console) -> None:
    """What a reader of any differences has to know, once for all reports."""
    if any(report.differences for report in reports):
        console.print(NOTE, style="dim")


def heading(report: Report) -> str:
    """The dish as it was announced, with the written title where it is another."""
    said, written = capital(report.dish), report.written.strip()
    if not written or written.lower() == said.lower():
        return said
    return f"{said} (written: {written})"


def _plain(text: str) -> str:
    from rich.markup import escape as plain

    return plain(text)


def _table(title: str, rows: Sequence[Row]) -> Table:
    table = _empty(title, "What", "Said", "Written")
    for row in rows:
        what = f"{row.about} ({row.kind})"
        cells = (moment_words(row.found), line_words(row.found), what, row.said or "-", row.written or "-")
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
    yield f"<h1>{escape(heading(report))}: said against written</h1>\n<p>{escape(summary(report))}</p>"
    if report.doubt:
        yield f"<p><strong>{escape(report.doubt)}</strong></p>"
    for weight in WEIGHTS:
        rows = rows_of(report, weight)
        if rows:
            heads = ("What", "Kind", "Said", "Time", "Written", "Line")
            cells = [
                (row.about, row.kind, row.said, moment_words(row.found), row.written, line_words(row.found))
                for row in rows
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
