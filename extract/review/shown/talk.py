"""A reviewed draft as a talk: the show sentence by sentence, with what the reviewer let stand written beside it.

The form is that of annotated talks: a head, "---", then a line a stretch of speech (what it does, the letter of
its dish, the words), and indented below it the ingredient lines, shares, heats, times and counts that its words
settle. What a stretch does is known only from the draft: words behind a line are "need", behind a step "do",
words of a dish without either "tale".
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from string import ascii_uppercase

from extract.lexicon import read_lexicon
from extract.measure.figures import exact
from extract.model import Action, Amount, Dish, Evidence, Ingredient, Portion, RecipeDraft
from extract.review.edits.evidence import is_reviewers
from extract.review.edits.stretches import stretches_of
from extract.transcript import Cue

_ROLES = {"opening": "hi", "sign-off": "bye", "visit": "visit", "teaser": "tease"}
_SENTENCE = re.compile(r"(?<=[.!?])\s+(?=[A-Z\"'“])")
NO_DISH = "-"
_LONG = 240  # characters; a longer "sentence" is speech without full stops
_REACH = 200  # characters behind the start of its cue within which evidence begins
_AROUND = 0.05  # seconds by which the bounds of a cue and of a stretch may differ


@dataclass(slots=True)
class Spoken:
    """One stretch of speech: the characters of the whole talk that it fills, and the notes below it."""

    begin: int
    end: int
    start: float
    text: str
    role: str = "tale"
    dish: str = NO_DISH
    notes: list[str] = field(default_factory=list)


class Speech:
    """The words of all cues in one row, so that evidence that runs over cues is found in it."""

    def __init__(self, cues: Sequence[Cue]) -> None:
        self.offsets: dict[int, int] = {}
        pieces, at = [], 0
        for cue in cues:
            self.offsets[cue.index] = at
            pieces.append(" ".join(cue.text.split()))
            at += len(pieces[-1]) + 1
        self.text = " ".join(pieces)
        self.rows = list(self._sentences(cues))

    def _sentences(self, cues: Sequence[Cue]) -> Iterator[Spoken]:
        """Sentence by sentence; where the recogniser set no full stops, cue by cue."""
        bounds = [0, *(found.end() for found in _SENTENCE.finditer(self.text)), len(self.text)]
        starts = [(self.offsets[cue.index], cue.start / 1000) for cue in cues]
        for low, high in pairwise(bounds):
            inner = [at for at, _ in starts if low < at < high] if high - low > _LONG else []
            for begin, end in pairwise([low, *inner, high]):
                start = max((time for at, time in starts if at <= begin), default=0.0)
                text = self.text[begin:end].strip()
                if text:
                    yield Spoken(begin, end, start, text)

    def row_of(self, said: Sequence[Evidence]) -> Spoken | None:
        """Where the first words of the evidence that can be found are said to their end."""
        for one in said:
            words = " ".join(one.text.split()).lower()
            offset = self.offsets.get(one.cue)
            if is_reviewers(one) or offset is None:
                continue
            at = self.text.lower().find(words, offset, offset + len(words) + _REACH)
            last = (at + len(words) if at >= 0 else offset + 1) - 1
            return next((row for row in self.rows if row.begin <= last < row.end), None)
        return None


def talk_text(draft: RecipeDraft, cues: Sequence[Cue], name: str) -> str:
    """The whole talk, ending in a newline."""
    letters = dict(enumerate(ascii_uppercase))
    dishes = [dish for dish in draft.dishes if any(part.ingredients for part in dish.components)]
    speech = Speech(cues)
    _place(speech.rows, draft, dishes, letters)
    for number, dish in enumerate(dishes):
        _note_dish(speech, dish, letters[number])
    body = [line for row in speech.rows for line in _printed(row)]
    titles = [f"dish {letters[number]}: {' '.join(dish.title.split())}" for number, dish in enumerate(dishes)]
    head = [f"id: {re.sub(r'[^a-z0-9]+', '-', name.lower()).strip('-') or 'talk'}", "style: reviewed draft"]
    if draft.measures:
        head.append(f"measures: {draft.measures}")
    return "\n".join([*head, *titles, "---", *body]) + "\n"


def _place(rows: list[Spoken], draft: RecipeDraft, dishes: Sequence[Dish], letters: dict[int, str]) -> None:
    """Give every stretch of speech its dish, and what is left out its reason."""
    for row in rows:
        reason = next(
            (part.reason for part in draft.talk if part.start - _AROUND <= row.start < part.end), None
        )
        inside = next((n for n, dish in enumerate(dishes) if _holds(dish, row.start)), None)
        if reason is not None or inside is None:
            row.role = _ROLES.get(reason or "", "break" if reason == "break" else "visit" if reason else "hi")
            row.role = "tale" if reason == "talk" else row.role
        else:
            row.dish = letters[inside]


def _holds(dish: Dish, moment: float) -> bool:
    return any(start - _AROUND <= moment < end for start, end in stretches_of(dish))


def _note_dish(speech: Speech, dish: Dish, letter: str) -> None:
    """Write what the dish holds under the speech that settles it."""
    for step in dish.method:
        for said in [*step.said, *(one for action in step.actions for one in action.said)]:
            row = _mine(speech.row_of([said]), letter)
            if row is not None:
                row.role = "do"
        for action in step.actions:
            _write(speech, action.said, letter, _heat_note(action), _time_note(action))
    for part in dish.components:
        for line in part.ingredients:
            found = _write(speech, line.said, letter, _line_note(line, part.name))
            if found is not None and found.role == "tale":
                found.role = "need"
        for share in part.portions:
            _write(speech, share.said, letter, _share_note(share))
    if dish.yield_ is not None:
        unit = dish.yield_.unit or "servings"
        _write(
            speech,
            dish.yield_.said,
            letter,
            f"= yield | {_figures(dish.yield_.low, dish.yield_.high)} | {unit}",
        )
    if dish.batch is not None:
        _write(speech, dish.batch.said, letter, f"= batch | {_number(dish.batch.factor)}")


def _mine(row: Spoken | None, letter: str) -> Spoken | None:
    """The row where it is free or belongs to the dish; speech of no dish that a value rests on becomes its own."""
    if row is not None and row.dish == NO_DISH:
        row.dish, row.role = letter, "tale"
    return row if row is not None and row.dish == letter else None


def _write(speech: Speech, said: Sequence[Evidence], letter: str, *notes: str) -> Spoken | None:
    row = _mine(speech.row_of(said), letter)
    if row is not None:
        row.notes += [note for note in notes if note and note not in row.notes]
    return row


def _line_note(line: Ingredient, part: str) -> str:
    more = [f"also={line.heard}"] if line.heard else []
    more += [f"prep={_cell(line.preparation)}"] if line.preparation else []
    more += [f"alt={_cell(','.join(line.alternatives))}"] if line.alternatives else []
    more += ["opt"] if line.optional else []
    more += [f"note={_cell(line.note)}"] if line.note else []
    cells = [_amount(line.amount), _unit(line.amount), _cell(line.name), _cell(part)]
    cells += [_cell("; ".join(more))] if more else []
    return f"+ {' | '.join(cells)}".rstrip(" |")


def _amount(amount: Amount | None) -> str:
    if amount is None:
        return "?"
    return ("~" if amount.approximate else "") + _figures(amount.low, amount.high)


def _unit(amount: Amount | None) -> str:
    """The unit where the form knows it, "" for a count."""
    known = {
        row["unit"] for row in read_lexicon("unit_print", columns=("unit", "one", "many", "sign", "way"))
    }
    return amount.unit if amount is not None and amount.unit in known else ""


def _share_note(share: Portion) -> str:
    part = share.fraction if isinstance(share.fraction, str) else _number(share.fraction)
    return f"% {part} | {_cell(share.of)}"


def _heat_note(action: Action) -> str:
    heat = action.heat
    if heat is None or heat.worked_out:
        return ""
    if heat.low is not None and heat.high is not None:
        return f"^ {heat.kind} | {_figures(heat.low, heat.high)} | {heat.unit}".rstrip()
    return f"^ {heat.kind} | {_cell(heat.level)} |" if heat.level else ""


def _time_note(action: Action) -> str:
    time = action.duration
    if time is None or time.low is None or time.high is None:
        return ""
    what = " ".join([action.verb, *action.objects[:1]])
    return f"~ {_figures(time.low, time.high)} | {time.unit} | {_cell(what)}"


def _figures(low: float, high: float) -> str:
    return _number(low) if low == high else f"{_number(low)}-{_number(high)}"


def _number(value: float) -> str:
    return f"{float(exact(value)):.3f}".rstrip("0").rstrip(".")


def _cell(text: str) -> str:
    return " ".join(text.replace("|", "/").replace("\n", " ").split())


def _printed(row: Spoken) -> Iterator[str]:
    yield f"{row.role} {row.dish} {row.text}"
    yield from (f"  {note}" for note in row.notes)
