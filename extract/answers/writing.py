"""Writing an answer into the line, step or fact of a dish that its question is about.

Each writer changes the dish in place and returns in a few words what it wrote, "" where the answer could not be
read as what was asked for: then it is only kept beside its question. Every value written carries the answer as its
evidence, by "reviewer".
"""

from __future__ import annotations

from collections.abc import Callable

from extract.answers import facts, reading
from extract.answers.places import actions_about, answer_of, lines_about, with_answer
from extract.draft.finish import in_place_of
from extract.draft.questions.words import kind_of, listed
from extract.measure.kitchen import amount_words, print_temperature
from extract.model import Action, Dish, Heat, Ingredient, Question, RecipeDraft, Step


def write_in(draft: RecipeDraft, dish: Dish, question: Question) -> str:
    """Write the answer of ``question`` where it belongs in ``dish``; what was written, "" for nothing."""
    writer = _WRITERS.get(kind_of(question.kind).about)
    return writer(draft, dish, question) if writer is not None and answer_of(question) else ""


def _amount(_draft: RecipeDraft, dish: Dish, question: Question) -> str:
    return _on_lines(dish, question, _put_amount)


def _size(_draft: RecipeDraft, dish: Dish, question: Question) -> str:
    return _on_lines(dish, question, _put_size)


def _on_lines(dish: Dish, question: Question, put: Callable[[Ingredient, reading.Told], bool]) -> str:
    """Put an answer on one line, or on each of several that it tells of by name or says "each" of."""
    lines, text = lines_about(dish, question), answer_of(question)
    done = []
    for line in lines:
        told = _told_of(line, text, alone=len(lines) == 1)
        if told is not None and put(line, told):
            line.said = with_answer(line.said, question, dish)
            done.append(f"{line.name}: {_shown(line)}")
    if not done and len(lines) == 1:
        lines[0].note = _beside(lines[0].note, text)
        lines[0].said = with_answer(lines[0].said, question, dish)
        return f"{lines[0].name}: {text}"
    return listed(done)


def _told_of(line: Ingredient, text: str, *, alone: bool) -> reading.Told | None:
    """What the answer tells of one line."""
    if alone:
        return reading.read_amount(text)
    told = reading.read_amount(text)
    return told if told is not None and told.each else reading.amount_for(text, line.name)


def _shown(line: Ingredient) -> str:
    return amount_words(line.amount) if line.amount is not None else ""


def _put_amount(line: Ingredient, told: reading.Told) -> bool:
    line.amount, line.counted_in = told.amount, ""
    if told.beside and told.beside.lower() not in line.name.lower():
        line.note = _beside(line.note, told.beside)
    return True


def _put_size(line: Ingredient, told: reading.Told) -> bool:
    if told.size is None or line.amount is None:
        return False
    line.amount = line.amount.model_copy(update={"size": told.size})
    return True


def _beside(note: str, words: str) -> str:
    return note if words in note else "; ".join(filter(None, (note, words)))


def _name(_draft: RecipeDraft, dish: Dish, question: Question) -> str:
    """A food that was heard rightly, or its right name, with an amount where the answer gives one."""
    lines, text = lines_about(dish, question), answer_of(question)
    if reading.says(text, "yes"):
        for line in lines:
            line.heard, line.known = "", True
            line.said = with_answer(line.said, question, dish)
        return f"{listed([line.name for line in lines])}: heard rightly" if lines else ""
    if len(lines) != 1 or reading.says(text, "no"):
        return ""
    read = reading.read_line_of(text)
    if read is None:
        return ""
    line = lines[0]
    before, line.name = line.name, read.name
    line.amount = read.amount or line.amount
    line.heard, line.known = "", True
    line.said = with_answer(line.said, question, dish)
    return f"{before} is {line.name}"


def _scale(_draft: RecipeDraft, dish: Dish, question: Question) -> str:
    """The scale of every figure that was asked about, and whether the oven is a fan oven."""
    text = answer_of(question)
    unit, fan = reading.read_scale(text), reading.read_fan(text)
    wanted = {heat.kind for _, action in actions_about(dish, question) if (heat := action.heat)}
    done = []
    for step in dish.method:
        for action in step.actions:
            heat = action.heat
            if (
                heat is None
                or heat.kind not in wanted
                or heat.low is None
                or (heat.unit and not heat.scale_from)
            ):
                continue
            before = print_temperature(heat)
            heat.unit = unit or heat.unit
            heat.fan = heat.fan if fan is None else fan
            heat.scale_from = "the reviewer" if unit else heat.scale_from
            action.said = with_answer(action.said, question, dish)
            done.append(print_temperature(heat))
            for each in dish.method:
                each.text = in_place_of(each.text, before, done[-1])
    return listed(list(dict.fromkeys(done)))


def _heat(draft: RecipeDraft, dish: Dish, question: Question) -> str:
    """The oven's heat at the first thing that goes into it; "yes" takes that of the dish before."""
    text = answer_of(question)
    heat = _oven_before(draft, dish) if reading.says(text, "yes") else reading.read_heat(text)
    found = next(actions_about(dish, question), None)
    if heat is None or found is None:
        return ""
    step, action = found
    action.heat = heat
    action.said = with_answer(action.said, question, dish)
    words = f"at {print_temperature(heat)}"
    _add_words(step, action, words)
    return f"{question.about}: {words}"


def _oven_before(draft: RecipeDraft, dish: Dish) -> Heat | None:
    """The last oven setting of the dishes before this one."""
    place = next((at for at, other in enumerate(draft.dishes) if other is dish), 0)
    heats = [
        action.heat
        for other in draft.dishes[:place]
        for step in other.method
        for action in step.actions
        if action.heat is not None and action.heat.kind == "oven" and action.heat.low is not None
    ]
    return heats[-1].model_copy(deep=True) if heats else None


def _time(_draft: RecipeDraft, dish: Dish, question: Question) -> str:
    """How long a stage takes, and its sign of doneness."""
    text = answer_of(question)
    duration, until = reading.read_time(text), reading.read_until(text)
    found = next(actions_about(dish, question), None)
    if found is None or (duration is None and not until):
        return facts.put_note(_draft, dish, question)
    step, action = found
    action.duration = duration or action.duration
    action.until = until or action.until
    action.said = with_answer(action.said, question, dish)
    words = " ".join(
        filter(None, (f"for {duration.text}" if duration else "", f"until {until}" if until else ""))
    )
    _add_words(step, action, words)
    return f"{question.about}: {words}"


def _add_words(step: Step, action: Action, words: str) -> None:
    """Say in the step's text what an answer adds: within its one sentence, else in a sentence of its own."""
    text = step.text.rstrip()
    if words in text:
        return
    if len(step.actions) == 1 and text.endswith(".") and text.count(".") == 1:
        step.text = f"{text[:-1]} {words}."
        return
    thing = next((name for name in action.objects if name != "it"), "")
    what = f"the {thing}" if thing else "it"
    step.text = f"{text} {action.verb[:1].upper()}{action.verb[1:]} {what} {words}.".strip()


_WRITERS: dict[str, Callable[[RecipeDraft, Dish, Question], str]] = {
    "amount": _amount,
    "size": _size,
    "name": _name,
    "scale": _scale,
    "heat": _heat,
    "time": _time,
    "tin": facts.put_tin,
    "yield": facts.put_yield,
    "batch": facts.put_batch,
    "title": facts.put_title,
    "note": facts.put_note,
}
