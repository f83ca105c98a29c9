"""Texts that are no transcripts, told by what is in them: documents, programs, tables, and what Cardwright wrote."""

from __future__ import annotations

import ast
import csv
import json
import re
import warnings
from functools import cache
from typing import Any

from extract.errors import CardwrightError
from extract.lexicon import read_lexicon
from extract.transcript.formats.segments import LISTS, STARTS, TEXTS, is_json

REMEDY = "give the transcript: WebVTT, SubRip, TTML, JSON, stamped or plain text"


class NotTranscript(CardwrightError):
    """A text that is no transcript. In a folder it is passed over."""

    def __init__(self, kind: str, name: str) -> None:
        super().__init__(f"this is {kind}, not a transcript", path=name, line=1, remedy=REMEDY)
        self.kind = kind


HEAD = 65536  # characters that tell what a text is
_DOCUMENTS = (
    (re.compile(r"%PDF-"), "a PDF document"),
    (re.compile(r"\{\\rtf"), "a rich-text document"),
    (re.compile(r"\s*\[Script Info\]", re.IGNORECASE), "a script of styled subtitles"),
    (re.compile(r"\s*<(!doctype html|html)\b", re.IGNORECASE), "a web page"),
    (re.compile(r"#!\s*/"), "a program"),
    (
        re.compile(r"[^\n]*\n\s*\d\d:\d\d:\d\d[:;]\d\d\s+(?:[0-9a-fA-F]{4}\s+){2}"),
        "captions as codes for a decoder",
    ),
)
_MARKUP = re.compile(r"\s*<[?!]\w|\s*<[A-Za-z][\w:.-]*(\s[^<>]*)?/?>")
_SCALAR = re.compile(r'\s*(?:"[^"\n]*"|-?\d+(?:\.\d+)?|true|false|null)\s*')
# What the program's own prints begin with or hold.
_OWN = (
    (re.compile(r"# [^\n]*\n\n[^\n]*\n\n> \*\*Check before use\.\*\*"), "the page of a draft"),
    (re.compile(r"Kitchen ledger of "), "a kitchen ledger"),
    (re.compile(r"draft,dish,id,rank,must answer,"), "a sheet of questions"),
    (re.compile(r"Nothing is left to ask\.|Nothing to buy\."), "a list that Cardwright printed"),
    (
        re.compile(r"[^\n]+\n(?:[^\n]+\n)?  (?:Before it can be published|Also to ask|Answered)\n"),
        "a list of questions",
    ),
    (re.compile(r"(?s).*^Differences: \d+ that change the dish, ", re.MULTILINE), "the report of a check"),
)
_TIMES = (*STARTS, *(f"{start}_ms" for start in STARTS), *(f"{start}Ms" for start in STARTS), "timestamp")
_SIGNS = re.compile(r"[{}<>=_;\\|]|(?<=\w)[(\[]")
PROGRAM = 0.06  # signs of programs to a letter; talk has one to a hundred
_NO_SEGMENTS = "JSON without a list of segments"
LEAST = 60  # letters of a text that its signs may tell of
TABLE_ROWS = 3


def other_kind(text: str) -> str:
    """What ``text`` is where it is no transcript, in words that follow "this is"; "" where it may be one."""
    head = text[:HEAD]
    own = next((kind for sign, kind in _OWN if sign.match(head)), "")
    if own or _is_shopping(head):
        return own or "a shopping list"
    document = next((kind for sign, kind in _DOCUMENTS if sign.match(head)), "")
    if document:
        return document
    return _NO_SEGMENTS if _SCALAR.fullmatch(head) else ""


def kind_beside_talk(text: str) -> str:
    """The same of a text in which no times were found: markup, a program or a table; "" for words."""
    head = text[:HEAD]
    if _MARKUP.match(head):
        return "XML, but not timed text (TTML)"
    if _is_table(head):
        return "a table"
    return "a program" if _is_python(head) or _is_program(head) else ""


@cache
def _aisles() -> frozenset[str]:
    return frozenset(row["heading"] for row in read_lexicon("aisles", columns=("kind", "heading")))


def _is_shopping(head: str) -> bool:
    lines = head.split("\n", 2)
    return len(lines) > 1 and lines[0] in _aisles() and lines[1].startswith("  ")


def json_kind(text: str) -> str:
    """What whole JSON holds that is no list of segments; "" where it may be one, is broken, or no JSON."""
    if not is_json(text[:HEAD]):
        return ""
    try:
        whole = json.loads(text)
    except (ValueError, RecursionError):
        return ""
    if isinstance(whole, dict):
        if str(whole.get("format")).startswith("recipe-draft/"):
            return "a recipe draft"
        whole = next((whole[key] for key in LISTS if isinstance(whole.get(key), list)), None)
    if isinstance(whole, list) and any(_is_segment(row) for row in whole):
        return ""
    return _NO_SEGMENTS


def _is_segment(row: Any) -> bool:
    """Whether a row of JSON has words and a time in the places where transcripts have them."""
    if not isinstance(row, dict):
        return False
    words = isinstance(row.get("words"), list)
    return words or (any(key in row for key in TEXTS) and any(key in row for key in _TIMES))


def _is_table(head: str) -> bool:
    """Whether the lines have the same number of cells, three and more, the first line naming them."""
    lines = [line for line in head.split("\n")[:-1] or [head] if line.strip()][:200]
    if len(lines) < TABLE_ROWS:
        return False
    for mark in ",\t;":
        if lines[0].count(mark) < 2 or re.search(rf"{mark} ", lines[0]):
            continue
        counts = [len(row) for row in csv.reader(lines, delimiter=mark)]
        if counts.count(counts[0]) >= 0.9 * len(counts):
            return True
    return False


def _is_python(head: str) -> bool:
    """Whether it is Python, and more of it than words that happen to be an expression."""
    whole = head if len(head) < HEAD else head[: head.rfind("\n")]
    kinds = (ast.Import, ast.ImportFrom, ast.FunctionDef, ast.ClassDef, ast.Assign, ast.Call)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        try:
            return any(isinstance(node, kinds) for node in ast.walk(ast.parse(whole)))
        except (SyntaxError, ValueError, RecursionError, MemoryError):
            return False


def _is_program(head: str) -> bool:
    letters = sum(1 for char in head if char.isalpha())
    return letters >= LEAST and len(_SIGNS.findall(head)) > PROGRAM * letters
