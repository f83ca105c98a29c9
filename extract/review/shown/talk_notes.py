"""The notes of a talk: values of a draft in the cells of the form of annotated talks."""

from __future__ import annotations

from extract.measure.figures import exact
from extract.model import Action, Amount, Batch, Heat, Ingredient, Portion, Yield

# The form's closed lists; a unit that is not among them is a plain count with a note.
_UNIT_WORDS = (
    "teaspoon tablespoon cup fluid_ounce pint quart gallon litre millilitre ounce pound gram kilogram inch centimetre "
    "clove slice can jar package stick head bunch sprig stalk leaf rib ear fillet breast thigh sheet cube piece block "
    "loaf ball pinch dash handful splash drizzle knob"
)
_UNITS = frozenset(_UNIT_WORDS.split())
_SAME = {"tin": "can", "packet": "package"}
_SCALES = frozenset({"degC", "degF", "gas_mark"})


def line_note(line: Ingredient, part: str) -> str:
    """An ingredient line: ``+ AMOUNT | UNIT | FOOD | PART | more``."""
    unit = line.amount.unit if line.amount is not None else ""
    known = _SAME.get(unit, unit)
    notes = [line.note] if line.note else []
    if known and known not in _UNITS:
        notes, known = [unit.replace("_", " "), *notes], ""
    more = [f"also={_piece(line.heard)}"] if line.heard else []
    more += [f"prep={_piece(line.preparation)}"] if line.preparation else []
    more += [f"alt={','.join(map(_piece, line.alternatives))}"] if line.alternatives else []
    more += ["opt"] if line.optional else []
    more += [f"note={_piece(', '.join(note for note in notes if note))}"] if any(notes) else []
    cells = [_amount(line.amount), known, _cell(line.name), _cell(part), "; ".join(more)]
    return f"+ {' | '.join(cells)}".rstrip(" |")


def _amount(amount: Amount | None) -> str:
    if amount is None:
        return "?"
    return ("~" if amount.approximate else "") + _figures(amount.low, amount.high)


def share_note(share: Portion) -> str:
    """A share of something made: ``% SHARE | MADE THING``."""
    part = share.fraction if isinstance(share.fraction, str) else _number(share.fraction)
    return f"% {part} | {_cell(share.of)}"


def heat_notes(action: Action) -> list[str]:
    """The settings that were said, each on its own scale: ``^ KIND | FIGURE or LEVEL | UNIT``."""
    said = [] if action.heat is None else [action.heat, *action.heat.equivalents]
    return [note for note in (_heat_note(heat) for heat in said if not heat.worked_out) if note]


def _heat_note(heat: Heat) -> str:
    if heat.low is not None and heat.high is not None:
        scale = heat.unit if heat.unit in _SCALES else ""
        return f"^ {heat.kind} | {_figures(heat.low, heat.high)} | {scale}".rstrip()
    return f"^ {heat.kind} | {_cell(heat.level)} |" if heat.level else ""


def time_note(action: Action) -> str:
    """A time in figures: ``~ FIGURES | UNIT | WHAT``."""
    time = action.duration
    if time is None or time.low is None or time.high is None or time.moment:
        return ""
    what = " ".join([action.verb, *action.objects[:1]])
    return f"~ {_figures(time.low, time.high)} | {time.unit} | {_cell(what)}"


def yield_note(made: Yield) -> str:
    """What a dish makes."""
    return f"= yield | {_figures(made.low, made.high)} | {_cell(made.unit or 'servings')}"


def batch_note(batch: Batch, part: str) -> str:
    """What was made on camera as a multiple of the normal batch; of one part where it is that part's."""
    return f"= batch | {_number(batch.factor)}" + (f" | {_cell(part)}" if part else "")


def _figures(low: float, high: float) -> str:
    return _number(low) if low == high else f"{_number(low)}-{_number(high)}"


def _number(value: float) -> str:
    return f"{float(exact(value)):.3f}".rstrip("0").rstrip(".")


def _cell(text: str) -> str:
    return " ".join(text.replace("|", "/").split())


def _piece(text: str) -> str:
    """A text among others of the last cell, which parts them by ";"."""
    return _cell(text.replace(";", ","))
