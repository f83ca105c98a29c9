"""A reviewed draft as a talk: the show sentence by sentence, with what the reviewer let stand written beside it.

The form is that of annotated talks: a head, "---", then a line a stretch of speech (what it does, the letter of
its dish, the words), and indented below it the ingredient lines, shares, heats, times and counts that its words
settle. Which dish speech belongs to, and what is left out, is the reviewer's; what a sentence is for is the
reader's reading of it, within what the draft says of it (words behind a step are the method's, left-out ones
are not). What nobody said in the recording, such as a line that the reviewer typed, is not in a talk.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from string import ascii_uppercase

from extract.model import Dish, Evidence, RecipeDraft
from extract.review.edits.stretches import stretches_of
from extract.review.shown.hearing import Hearing
from extract.review.shown.talk_notes import (
    batch_note,
    heat_notes,
    line_note,
    share_note,
    time_note,
    yield_note,
)

NO_DISH = "-"
_LEFT_OUT = {
    "greeting": "hi",
    "opening": "hi",
    "teaser": "tease",
    "visit": "visit",
    "break": "break",
    "sign-off": "bye",
    "noise": "junk",
}
_OUTSIDE = ("hi", "tease", "visit", "break", "bye", "junk")
_METHOD = ("do", "ahead", "sign", "need")
_LINES = ("need", "do", "ahead")
_BESIDE = ("open", "need", "sign", "why", "tale", "else")
_SENTENCE = re.compile(r"(?<=[.!?])\s+(?=[A-Z\"'“])")
_SPEAKER = re.compile(r"[A-Z][A-Z .']{1,20}")
_LONG = 240  # characters; a longer "sentence" is speech without full stops


@dataclass(slots=True)
class Spoken:
    """One stretch of speech: the characters of the whole talk that it fills, and the notes below it."""

    begin: int
    end: int
    moment: float
    dish: str = NO_DISH
    of_step: bool = False
    notes: list[str] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Sheet:
    """The talk as it is written: what was heard, its stretches of speech, and the letters of the dishes."""

    hearing: Hearing
    rows: list[Spoken]
    letters: dict[str, Dish]

    def row_of(self, said: Sequence[Evidence], letter: str) -> Spoken | None:
        """Where the first words of the evidence that are found end, None where that is another dish's."""
        found = next((span for span in map(self.hearing.find, said) if span is not None), None)
        row = next((row for row in self.rows if found and row.begin < found[1] <= row.end), None)
        if row is not None and row.dish == NO_DISH:
            row.dish = letter  # speech of no dish that a value rests on becomes its own
        return row if row is not None and row.dish == letter else None

    def write(self, said: Sequence[Evidence], letter: str, *notes: str) -> None:
        """Put notes under the speech that settles them, each once."""
        row = self.row_of(said, letter)
        if row is not None:
            row.notes += [note for note in notes if note and note not in row.notes]


def talk_text(draft: RecipeDraft, hearing: Hearing, name: str) -> str:
    """The whole talk, ending in a newline. Dishes of which no line was said are left out."""
    dishes = list(draft.dishes)
    while True:
        sheet = _noted(hearing, dishes)
        held = {row.dish for row in sheet.rows if any(note.startswith("+") for note in row.notes)}
        kept = [dish for letter, dish in sheet.letters.items() if letter in held]
        if len(kept) == len(dishes):
            return _printed(draft, sheet, name)
        dishes = kept


def _noted(hearing: Hearing, dishes: Sequence[Dish]) -> Sheet:
    letters = {_letter(number): dish for number, dish in enumerate(dishes)}
    sheet = Sheet(hearing, list(_sentences(hearing)), letters)
    for row in sheet.rows:
        inside = (letter for letter, dish in letters.items() if _holds(dish, row.moment))
        row.dish = next(inside, NO_DISH)
    for letter, dish in letters.items():
        _note_dish(sheet, dish, letter)
    return sheet


def _letter(number: int) -> str:
    """A to Z, then AA to ZZ."""
    more, last = divmod(number, len(ascii_uppercase))
    return (ascii_uppercase[more - 1] if more else "") + ascii_uppercase[last]


def _sentences(hearing: Hearing) -> Iterator[Spoken]:
    """Sentence by sentence; where the recogniser set no full stops, cue by cue."""
    text = hearing.text
    bounds = [0, *(found.end() for found in _SENTENCE.finditer(text)), len(text)]
    for low, high in pairwise(bounds):
        inner = [at for at in hearing.begins.values() if low < at < high] if high - low > _LONG else []
        for begin, end in pairwise([low, *inner, high]):
            first, last = hearing.tokens(begin, end)
            if text[begin:end].strip() and first < last:
                yield Spoken(begin, end, hearing.moments[(first + last) // 2])


def _holds(dish: Dish, moment: float) -> bool:
    return any(start <= moment < end for start, end in stretches_of(dish))


def _note_dish(sheet: Sheet, dish: Dish, letter: str) -> None:
    """Write what the dish holds under the speech that settles it."""
    for step in dish.method:
        for said in [*step.said, *(one for action in step.actions for one in action.said)]:
            row = sheet.row_of([said], letter)
            if row is not None:
                row.of_step = True
        for action in step.actions:
            sheet.write(action.said, letter, *heat_notes(action), time_note(action))
    for part in dish.components:
        for line in part.ingredients:
            sheet.write(line.said, letter, line_note(line, part.name))
        for share in part.portions:
            sheet.write(share.said, letter, share_note(share))
        if part.batch is not None:
            sheet.write(part.batch.said, letter, batch_note(part.batch, part.name))
    if dish.yield_ is not None:
        sheet.write(dish.yield_.said, letter, yield_note(dish.yield_))
    if dish.batch is not None:
        sheet.write(dish.batch.said, letter, batch_note(dish.batch, ""))


def _printed(draft: RecipeDraft, sheet: Sheet, name: str) -> str:
    head = [f"id: {re.sub(r'[^a-z0-9]+', '-', name.lower()).strip('-') or 'talk'}", "style: reviewed draft"]
    if draft.measures:
        head.append(f"measures: {draft.measures}")
    head += [f"dish {letter}: {' '.join(dish.title.split())}" for letter, dish in sheet.letters.items()]
    body: list[str] = []
    speakers = _speakers(sheet.hearing)
    for row in sheet.rows:
        words = sheet.hearing.text[row.begin : row.end].strip()
        body.append(f"{_role(draft, sheet.hearing, row)} {row.dish} {_speaker_of(row, speakers)}{words}")
        body += [f"  {note}" for note in row.notes]
    return "\n".join([*head, "---", *body]) + "\n"


def _role(draft: RecipeDraft, hearing: Hearing, row: Spoken) -> str:
    """What a stretch of speech is for, by the reader, among what the draft leaves it to be."""
    if row.dish == NO_DISH:
        reason = next((part.reason for part in draft.talk if part.start <= row.moment < part.end), "")
        return _LEFT_OUT.get(reason) or hearing.role(row.begin, row.end, _OUTSIDE)
    lines = any(note.startswith("+") for note in row.notes)
    return hearing.role(row.begin, row.end, _METHOD if row.of_step else _LINES if lines else _BESIDE)


def _speakers(hearing: Hearing) -> list[tuple[int, str]]:
    """Where the words of each cue begin and who speaks them; none where nobody or one alone is named."""
    named = [(hearing.begins[cue.index], cue.speaker.upper()) for cue in hearing.cues]
    return named if len({name for _, name in named if name}) > 1 else []


def _speaker_of(row: Spoken, speakers: Sequence[tuple[int, str]]) -> str:
    name = next((name for begin, name in reversed(speakers) if begin <= row.begin), "")
    return f"{name}: " if _SPEAKER.fullmatch(name) else ""
