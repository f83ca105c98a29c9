"""The lines of a text as headings, list items, numbered steps and running text."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import Literal

from extract.check.written.layout.columns import unfolded
from extract.check.written.layout.tables import Row, table_rows
from extract.check.written.layout.wrapping import unboxed, unwrapped
from extract.check.written.lines.amounts import read_quantity
from extract.check.written.lines.apart import foods_apart, is_food_first
from extract.check.written.lines.line import read_line
from extract.check.written.lines.tokens import tokens_of
from extract.lexicon import read_lexicon
from extract.spot.names.foods import kinds_of

Role = Literal["heading", "item", "step", "text", "yield"]

_HEADING = re.compile(r"^(#{1,6})\s+(.*?)\s*#*$")
_BOLD = re.compile(r"^(\*\*|__)(?P<text>[^*_]+?):?\1:?$")
_ITALIC = re.compile(r"^([*_])(?P<text>[^*_]+?):?\1:?$")
_RULE = re.compile(r"^\s*(?:[-=*_~]\s*){3,}$")
_ITEM = re.compile(r"^\s*(?:[-*+•◦▢□☐‣·–—]|\[[ xX]?\])\s+\S")
_STEP = re.compile(
    r"^\s*(?:\*\*)?(?:step\s+)?(\d{1,2})(?:\s*[.):]-?\s*(?:\*\*)?|\*\*)\s+(?=\D)", re.IGNORECASE
)
_QUOTED = re.compile(r"^\s*>+\s?")
_RUN_IN = re.compile(r"^(\*\*|__|)(?P<label>[^*_:.]{2,40})(?::\1|\1:)\s+(?P<foods>\S.*)$")
_DASHED = re.compile(r"^([*_]{1,2})(?P<label>[^*_:.]{2,40})\1\s+[-–—]\s+(?P<foods>\S.*)$")
_SET_OFF = re.compile(r"(?:^|\s)[*_]{1,2}([^*_:.]{2,40}):[*_]{1,2}\s")
_SENTENCE_END = re.compile(r"\.\s+(?=[A-Z])")
_PARTED = re.compile(r"\s+[·•|]\s+|;\s+")
_BRACKET = re.compile(r"\(.*?\)")
_TABLE_RULE = re.compile(r"^\s*\|?[\s:|-]+\|[\s:|-]*$")
MINOR, LABEL = 7, 8
_LEAD_WORDS, _BOLD_WORDS = 5, 14
_FEWEST_FOODS = 4  # in one line without a label


@dataclass(frozen=True, slots=True)
class Block:
    """One heading, list item, step or paragraph; ``line`` is 1-based, ``level`` 1 to 8 for headings."""

    line: int
    text: str
    role: Role
    level: int = 0


@cache
def heading_words(kind: str) -> frozenset[str]:
    """The words of ``lexicons/words/written_headings.tsv`` of one kind."""
    return frozenset(
        row["word"]
        for row in read_lexicon("written_headings", columns=("word", "kind"))
        if row["kind"] == kind
    )


def text_blocks(text: str) -> list[Block]:
    """The blocks of a Markdown or plain text."""
    lines = unfolded(unboxed([_QUOTED.sub("", line) for line in text.splitlines()]), is_label)
    return list(_joined(_classified(unwrapped(lines))))


def _classified(lines: list[tuple[int, str]]) -> Iterator[Block | None]:
    """A block a line; None for an empty one, at which nothing is joined."""
    rows = table_rows([raw for _, raw in lines], heading_words("yield") - heading_words("order"))
    for index, (number, raw) in enumerate(lines):
        line = raw.strip()
        following = lines[index + 1][1] if index + 1 < len(lines) else ""
        heads_table = line.startswith("|") and "|" in following and _TABLE_RULE.match(following)
        if not line or heads_table or _TABLE_RULE.match(raw) or _RULE.match(raw):
            yield None
        elif index in rows:
            yield from _of_row(number, rows[index])
        elif (
            index + 1 < len(lines) and re.fullmatch(r"\s*(=+|-{3,})\s*", lines[index + 1][1]) and _short(line)
        ):
            yield Block(number, line, "heading", 1 if "=" in lines[index + 1][1] else 2)
        elif _stands_between(lines, index):
            yield Block(number, line, "heading", MINOR)
        else:
            yield from _run_in(number, line) or _run_on(number, line) or [_block(number, raw)]


def _stands_between(lines: list[tuple[int, str]], index: int) -> bool:
    """Whether a plain line stands alone between two lists and names no food: "and when it has steeped"."""
    line = lines[index][1].strip()
    before, after = lines[max(0, index - 3) : index], lines[index + 1 : index + 4]
    if len(before) < 3 or len(after) < 3 or before[-1][1].strip() or after[0][1].strip():
        return False
    words = len(line.split())
    if (
        not 1 < words <= _LEAD_WORDS
        or not line[0].islower()
        or not line[-1].isalpha()
        or is_known_food(line, measured=False)
    ):
        return False
    around = [text.strip() for _, text in (*before[:-1], *after[1:])]
    listed = all(text and text[-1] not in ".!?" for text in around)
    return listed and all(map(_begins_line, (around[1], around[2])))


def _of_row(number: int, row: Row) -> Iterator[Block | None]:
    if row.part:
        yield Block(number, row.part, "heading", MINOR)
    if not row.text:
        yield None
    else:
        yield Block(number, row.text, "heading", MINOR) if row.heads else Block(number, row.text, "item")


def _run_in(number: int, line: str) -> list[Block]:
    """A part and its foods in one line, as blocks of their own: "**Glaze:** 2 tbsp honey · 1 tsp salt"."""
    match = _RUN_IN.match(line) or _DASHED.match(line)
    if match and match["label"].strip(" :").lower() in heading_words("ingredients"):
        return [Block(number, match["label"].strip(), "heading", MINOR), *_whole_list(number, match["foods"])]
    if match and match["label"].strip(" :").lower() in heading_words("yield"):
        return []
    if (
        match
        and len(match["label"].split()) <= _LEAD_WORDS
        and (behind := _SENTENCE_END.search(match["foods"]))
        and is_known_food(match["foods"][: behind.start()])
    ):
        foods = [match["foods"][: behind.start()]]  # "To serve: 1 lemon in quarters. Pour the butter over."
        rest = [Block(number, match["foods"][behind.end() :], "text")]
        heading = Block(number, match["label"].strip(), "heading", MINOR)
        return [heading, Block(number, foods[0], "item"), *rest]
    sentences = match is not None and _SENTENCE_END.search(match["foods"])
    foods = _PARTED.split(match["foods"] if sentences else match["foods"].rstrip(" .")) if match else []
    whole = not line.endswith(".") or len(foods) > 1
    first = match is not None and whole and is_known_food(foods[0], measured=not match[1])
    if match is None or sentences or not (first or (line[-1] not in "!?" and _are_listed(foods))):
        return []
    heading = Block(number, match["label"].strip(), "heading", MINOR)
    return [heading, *(Block(number, food, "item") for food in foods if food.strip())]


def _whole_list(number: int, text: str) -> Iterator[Block]:
    """A list in one paragraph with its parts set off: "2 eggs; salt. *Sauce:* 1 tbsp oil; 2 tbsp vinegar."."""
    for at, part in enumerate(_SET_OFF.split(text)):
        if at % 2:
            yield Block(number, part.strip(), "heading", MINOR)
            continue
        for piece in _PARTED.split(part.strip(" .")):
            for food in foods_apart(piece) if piece.strip() else ():
                yield Block(number, food.strip(), "item")


def _run_on(number: int, line: str) -> list[Block]:
    """A whole list in one paragraph, as blocks of its own: "flour, 200 g · sugar, 50 g · 2 eggs · salt"."""
    foods = [food for food in _PARTED.split(line) if food.strip()]
    if (";" in line and line.endswith((".", "!", "?"))) or not _are_listed(foods):
        return []
    return [Block(number, food.strip(" ."), "item") for food in foods]


def _are_listed(foods: Sequence[str]) -> bool:
    """Whether the parts of a line are foods of a list, at least half of them with an amount."""
    return len(foods) >= _FEWEST_FOODS and 2 * sum(map(is_known_food, foods)) >= len(foods)


def is_known_food(text: str, *, measured: bool = True) -> bool:
    """Whether a text names a food that is known; ``measured``: with an amount."""
    lines = read_line(text)[:1]
    return any(kinds_of(line.name) and (line.amount is not None or not measured) for line in lines)


def _block(number: int, raw: str) -> Block:
    line = raw.strip()
    if match := _HEADING.match(line):
        return Block(number, _undecorated(match[2]), "heading", len(match[1]))
    if (match := _BOLD.match(line)) and len(match["text"].split()) <= _BOLD_WORDS:
        text = match["text"].strip()
        food = is_known_food(text) and not _STEP.match(text)
        return Block(number, text, "text") if food else Block(number, text, "heading", MINOR)
    if (match := _ITALIC.match(line)) and is_label(match["text"]):
        return Block(number, match["text"].strip(), "heading", MINOR)
    if _ITEM.match(raw):
        return Block(number, line, "item")
    if match := _STEP.match(raw):
        return Block(number, raw[match.end() :].strip(), "step")
    if is_label(line):
        return Block(number, line.rstrip(":"), "heading", LABEL)
    indented = raw[:1].isspace() and len(raw) - len(raw.lstrip()) >= 2
    return Block(number, line, "text", level=1 if indented else 0)


def _undecorated(text: str) -> str:
    return re.sub(r"[*_`]", "", text).strip().rstrip(":")


def _short(line: str) -> bool:
    return len(line.split()) <= 8 and not line.endswith(".")


def is_label(line: str) -> bool:
    """A plain line that heads others: "Ingredients", "For the sauce:", "FOR THE SAUCE"."""
    word = line.lower().rstrip(":").strip()
    if any(word in heading_words(kind) for kind in ("ingredients", "method", "other")):
        return True
    if word.partition(" for ")[0] in heading_words("ingredients"):
        return _short(line)
    if not _short(line) or any(char.isdigit() for char in line):
        return False
    leads = tuple(heading_words("label"))
    if line.lower().startswith(leads) and len(line.split()) <= _LEAD_WORDS and "," not in line:
        return True
    told = _BRACKET.sub("", line)  # "RED SAUCE (night before)"
    letters = [char for char in told if char.isalpha()]
    return line.endswith(":") or (len(letters) > 2 and told == told.upper())


def _joined(blocks: Iterable[Block | None]) -> Iterator[Block]:
    """Blocks with wrapped lines put back together: an indented line goes on with the item above it."""
    held: Block | None = None
    for block in blocks:
        if block is None:
            if held is not None:
                yield held
            held = None
        elif held is not None and _goes_on(held, block):
            held = replace(held, text=f"{held.text} {block.text}")
        else:
            if held is not None:
                yield held
            held = block
    if held is not None:
        yield held


def _goes_on(held: Block, block: Block) -> bool:
    if block.role != "text" or held.role == "heading":
        return False
    if held.role in ("item", "step"):
        return block.level == 1 or (held.role == "step" and not held.text.endswith((".", "!", "?")))
    if block.level == 1 and held.role == "text" and held.level == 0 and _begins_line(held.text):
        return not _begins_line(block.text)
    wrapped = block.text[0].islower() and len(held.text) > 40 and not _begins_line(block.text)
    return held.text.endswith((",", ";")) or wrapped


def _begins_line(text: str) -> bool:
    """Whether a line begins as an ingredient's does: "a pinch of salt", "some oil"."""
    tokens = tokens_of(text)
    begun = tokens[0] in ("a", "an", "some") or read_quantity(tokens) is not None
    return begun or is_food_first(tokens)
