"""TTML2 and its IMSC profile (W3C): paragraphs with clock, offset, frame and tick times."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from xml.parsers import expat

from extract.errors import CardwrightError
from extract.transcript.formats.raw import RawCue

_OPENING = re.compile(
    r"\s*(?:<\?xml[^>]*\?>\s*)?(?:<!--(?:(?!-->).)*-->\s*)*(?:<!DOCTYPE[^>\[]*(?:\[[^\]]*\]\s*)?>\s*)?<(?:[\w.-]+:)?tt[\s/>]",
    re.DOTALL,
)
_DECLARATION = re.compile(r"^\s*<\?xml[^>]*\?>")
# TTML2 section 12.3.1: clock-time with a fraction or frames, and offset-time with a metric.
_CLOCK = re.compile(r"(\d{2,}):(\d{2}):(\d{2})(?:\.(\d+)|:(\d{2,})(?:\.\d+)?)?", re.ASCII)
_OFFSET = re.compile(r"(\d+(?:\.\d+)?)(h|ms|m|s|f|t)", re.ASCII)
_SECONDS = {"h": Fraction(3600), "m": Fraction(60), "s": Fraction(1), "ms": Fraction(1, 1000)}
DEEPEST = 100  # elements in one another; real documents have six or so
Span = tuple[Fraction, Fraction | None]  # begin and end in seconds, no end where none is set
_TIMED = ("body", "div", "p")


@dataclass(slots=True)
class Element:
    """One element with the line of its start tag; ``parts`` holds its text and children in order."""

    tag: str
    attributes: dict[str, str]
    line: int
    parts: list[Element | str] = field(default_factory=list)

    def children(self) -> Iterator[Element]:
        return (part for part in self.parts if isinstance(part, Element))

    def every(self, tag: str) -> Iterator[Element]:
        for child in self.children():
            if child.tag == tag:
                yield child
            yield from child.every(tag)

    def words(self) -> str:
        """The text inside, a line break where ``br`` stands, metadata left out."""
        pieces = []
        for part in self.parts:
            if isinstance(part, str):
                pieces.append(" ".join(part.split("\n")))
            elif part.tag == "br":
                pieces.append("\n")
            elif part.tag in {"span", "name"}:
                pieces.append(part.words())
        return "".join(pieces)


@dataclass(frozen=True, slots=True)
class Rates:
    """What a frame and a tick last, in fractions a second."""

    frames: Fraction
    ticks: Fraction


def is_ttml(text: str) -> bool:
    """Whether ``text`` is XML whose root element is ``tt``."""
    return _OPENING.match(text) is not None


def read_ttml(text: str, name: str) -> list[RawCue]:
    """The paragraphs of a TTML document in order of time.

    Raises CardwrightError, with the line, where it is not well-formed XML, has a document type, or a time is
    malformed.
    """
    root = _parse(_DECLARATION.sub("", text, count=1), name)
    walk = _Walk(root, name)
    for body in root.children():
        if body.tag == "body":
            walk.visit(body, (Fraction(0), None), "")
    return sorted(walk.cues, key=lambda cue: cue.start)


class _Builder:
    """Builds the tree from expat events; a document type, and with it any entity of its own, is refused."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.open: list[Element] = [Element("", {}, 1)]
        self.expat = expat.ParserCreate(namespace_separator=" ")
        self.expat.buffer_text = True
        self.expat.StartElementHandler = self.start
        self.expat.EndElementHandler = self.end
        self.expat.CharacterDataHandler = self.data
        self.expat.StartDoctypeDeclHandler = self.refuse

    def start(self, tag: str, attributes: dict[str, str]) -> None:
        if len(self.open) > DEEPEST:
            problem = f"elements lie more than {DEEPEST} deep in one another"
            raise CardwrightError(
                problem, path=self.name, line=self.expat.CurrentLineNumber, remedy="export it again"
            )
        plain = {key.rpartition(" ")[2]: value for key, value in attributes.items()}
        element = Element(tag.rpartition(" ")[2], plain, self.expat.CurrentLineNumber)
        self.open[-1].parts.append(element)
        self.open.append(element)

    def end(self, _tag: str) -> None:
        self.open.pop()

    def data(self, text: str) -> None:
        self.open[-1].parts.append(text)

    def refuse(self, *_declaration: object) -> None:
        problem = "this TTML declares a document type, which is not read"
        remedy = "take the <!DOCTYPE ...> out"
        raise CardwrightError(problem, path=self.name, line=self.expat.CurrentLineNumber, remedy=remedy)


def _parse(text: str, name: str) -> Element:
    builder = _Builder(name)
    try:
        builder.expat.Parse(text, True)
    except expat.ExpatError as error:
        problem = f"this TTML is not well-formed XML: {expat.ErrorString(error.code)}"
        raise CardwrightError(problem, path=name, line=error.lineno, remedy="export it again") from None
    return next(builder.open[0].children())


def _rates(root: Element) -> Rates:
    """Frame and tick rates of the root; 30 frames a second where none is given (TTML2 section 7.2)."""
    frames = _number(root.attributes.get("frameRate")) or Fraction(30)
    given = [
        _number(part) for part in re.split(r"[\s:]+", root.attributes.get("frameRateMultiplier", "").strip())
    ]
    if len(given) == 2 and given[0] and given[1]:
        frames *= given[0] / given[1]
    subframes = _number(root.attributes.get("subFrameRate")) or Fraction(1)
    ticks = _number(root.attributes.get("tickRate"))
    if not ticks:
        ticks = frames * subframes if "frameRate" in root.attributes else Fraction(1)
    return Rates(frames, ticks)


def _number(text: str | None) -> Fraction | None:
    return Fraction(int(text)) if text and re.fullmatch(r"\d{1,9}", text.strip(), re.ASCII) else None


class _Walk:
    """Goes down the timed elements, adding up the beginnings of nested containers."""

    def __init__(self, root: Element, name: str) -> None:
        self.name = name
        self.rates = _rates(root)
        self.agents = {agent.attributes.get("id", ""): agent.words().strip() for agent in root.every("agent")}
        self.cues: list[RawCue] = []

    def visit(self, element: Element, span: Span, speaker: str) -> Span:
        """Gather the paragraphs in ``element``; its own span is returned, for the next one of a sequence."""
        own = self._span(element, span)
        speaker = self._speaker(element, speaker)
        if element.tag == "p":
            self._paragraph(element, own, speaker)
            return own
        inside = own
        for child in element.children():
            if child.tag in _TIMED:
                after = self.visit(child, inside, speaker)
                if element.attributes.get("timeContainer") == "seq" and after[1] is not None:
                    inside = (after[1], own[1])
        return own

    def _paragraph(self, element: Element, own: Span, speaker: str) -> None:
        timed = [one for one in element.every("span") if {"begin", "end", "dur"} & one.attributes.keys()]
        if timed and not {"begin", "end", "dur"} & element.attributes.keys():
            spans = [self._span(one, own) for one in timed]
            ends = [end for _, end in spans if end is not None]
            own = (min(begin for begin, _ in spans), max(ends) if len(ends) == len(spans) else own[1])
        end = None if own[1] is None else round(own[1] * 1000)
        self.cues.append(RawCue(round(own[0] * 1000), end, element.words(), speaker, element.line))

    def _span(self, element: Element, outer: Span) -> Span:
        begin = self._time(element, "begin")
        end = self._time(element, "end")
        lasts = self._time(element, "dur")
        start = outer[0] + (begin or 0)
        ends = [] if outer[1] is None else [outer[1]]
        if end is not None:
            ends.append(outer[0] + end)
        if lasts is not None:
            ends.append(start + lasts)
        return start, min(ends) if ends else None

    def _time(self, element: Element, key: str) -> Fraction | None:
        text = element.attributes.get(key)
        if text is None:
            return None
        value = read_time(text.strip(), self.rates)
        if value is None:
            problem = f'{key}="{text.strip()[:30]}" is not a TTML time'
            raise CardwrightError(
                problem, path=self.name, line=element.line, remedy="write it as 00:01:05.5 or 65.5s"
            )
        return value

    def _speaker(self, element: Element, outer: str) -> str:
        ids = element.attributes.get("agent", "").split()
        return (self.agents.get(ids[0]) or ids[0]) if ids else outer


def read_time(text: str, rates: Rates) -> Fraction | None:
    """Seconds of a TTML time expression (TTML2 section 12.3.1), None where it is none."""
    clock = _CLOCK.fullmatch(text)
    if clock:
        hours, minutes, seconds = (int(part) for part in clock.groups()[:3])
        if minutes > 59 or seconds > 60:
            return None
        seconds = min(seconds, 59)  # 60 is for a leap second and read as 59
        part = Fraction(f"0.{clock[4]}") if clock[4] else Fraction(int(clock[5] or 0)) / rates.frames
        return hours * 3600 + minutes * 60 + seconds + part
    offset = _OFFSET.fullmatch(text)
    if offset is None:
        return None
    if offset[2] == "f":
        return Fraction(offset[1]) / rates.frames
    if offset[2] == "t":
        return Fraction(offset[1]) / rates.ticks
    return Fraction(offset[1]) * _SECONDS[offset[2]]
