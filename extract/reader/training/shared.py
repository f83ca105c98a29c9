"""Where the words stand that tell a share of something made: the notes of ``%``."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from extract.reader.labels import FIGURES, SHARES
from extract.reader.training.form import Note, figures
from extract.reader.training.marked import Marked, Span, close, find_part, stems

SHARE_WORDS = {
    "rest": set("rest remaining remainder remain other leftover left last balance".split()),
    "all": set("all whole lot every everything".split()),
    "some": set(
        "some little bit few most more spoonful spoon drizzle splash ladle ladleful scoop dollop layer".split()
    ),
}
KEPT = frozenset("kept keep saved held reserved".split())  # tell a rest where nothing else does
PARTS = {
    0.5: (("half", "halve"), ""),
    0.33: (("third",), ""),
    0.67: (("third",), "two"),
    0.25: (("quarter", "fourth"), ""),
    0.75: (("quarter", "fourth"), "three"),
    0.2: (("fifth",), ""),
    0.17: (("sixth",), ""),
}
COUNTS = frozenset({"two", "three", "four", "five"})
ANY_SHARE = frozenset({"rest", "all", "some"})
AHEAD = 7  # how far before its thing the word of a share stands


def share(marked: Marked, number: int, note: Note) -> None:
    """A share of a made thing: the word that tells how much, or the thing itself where none does."""
    at = share_place(marked, number, note.cell(0), stems(note.cell(1)))
    if at is None:
        return
    kind = note.cell(0)
    marked.figures[at] = FIGURES.index(SHARES[kind] if kind in SHARES else SHARES["part"])
    marked.shares.append(
        {
            "at": at,
            "of": find_part(marked, number, note.cell(1)),
            "dish": marked.talk.sentences[number].dish,
        }
    )


def share_place(marked: Marked, number: int, kind: str, thing: list[str]) -> int | None:
    """The token that tells a share: in its sentence, for a figure and a rest in those beside it too."""
    for span in marked.around(number, (0, 1, -1)):
        own = span == marked.place[number]
        made = [at for name in (thing, thing[-1:]) for at in marked.find(name, span)]
        if own or kind not in ("some", "all"):
            told = [
                (rank, i) for i in share_words(marked, span, kind) if (rank := told_of(marked, i, made, kind))
            ]
            if told:
                return min(told)[1]
        free = [at.end - 1 for at in made if not marked.figures[at.end - 1]]
        if kind in ANY_SHARE and own and free:
            return free[0]
    return None


def share_words(marked: Marked, span: Span, kind: str) -> list[int]:
    """The tokens of a span that can tell such a share and tell nothing else yet."""
    value = figures(kind)
    told = set(fractions(marked, span, value[0])) if value is not None else set(worded(marked, span, kind))
    return sorted(i for i in told if not marked.figures[i])


def worded(marked: Marked, span: Span, kind: str) -> list[int]:
    """The words of a share without a figure; the verb "rest" is none."""
    places = [i for i in range(*span) if not (marked.stems[i] == "rest" and marked.doc[i].pos_ == "VERB")]
    told = [i for i in places if marked.stems[i] in SHARE_WORDS.get(kind, set())]
    return told or [i for i in places if kind == "rest" and marked.stems[i] in KEPT]


def fractions(marked: Marked, span: Span, value: float) -> Iterator[int]:
    """The last words of a fraction: "two thirds", "2/3", "in six"."""
    words, before = next((row for v, row in PARTS.items() if abs(v - value) < 0.02), ((), ""))
    for i in range(*span):
        number = marked.stems[i - 1] if i and marked.stems[i - 1] in COUNTS else ""
        if marked.stems[i] in words and number == before:
            yield i
    for at, low, *_ in marked.amounts:
        bare = at.start in range(*span) and marked.doc[at.end - 1].pos_ == "NUM"
        in_parts = low > 1 and close(1 / low, value) and parted(marked, at.start)
        if bare and (close(low, value) or in_parts):
            yield at.end - 1


def parted(marked: Marked, at: int) -> bool:
    """Whether a number stands where something is divided: "in six", "between the four"."""
    return any(marked.doc[i].lower_ in ("in", "into", "between", "among") for i in range(max(0, at - 2), at))


def told_of(marked: Marked, at: int, made: Sequence[Span], kind: str) -> tuple[int, int] | None:
    """How surely a word tells a share of one of the things, lowest first; None where it hardly does."""
    gaps = [found.start - at for found in made if 0 < found.start - at <= AHEAD]
    if gaps:
        return (0, min(gaps))
    after = marked.doc[at + 1].lower_ if at + 1 < len(marked.doc) else ""
    if after == "of":
        return (1, 0)
    return None if made and kind in ("some", "all") else (2, 0)
