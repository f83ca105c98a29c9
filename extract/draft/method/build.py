"""From spoken actions to numbered steps."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from extract.draft.method.arrange import AHEAD, ahead_first, with_oven_heated
from extract.draft.method.larder import Larder
from extract.draft.method.notes import note_text
from extract.draft.method.phrases.grammar import listed
from extract.draft.method.phrases.names import Resolve
from extract.draft.method.phrases.plain import condition_words
from extract.draft.method.references import References
from extract.draft.method.shares import Taken, without_shared
from extract.draft.method.steps import group, is_long
from extract.draft.method.writer import Writer
from extract.draft.times import MEANWHILE, SECONDS
from extract.model import Step
from extract.spot.actions.weight import is_instruction
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from fractions import Fraction

    from extract.language.speech import Speech
    from extract.spot.actions.span import ActionSpan
    from extract.spot.spans import Duration


MOST_JOINED = 4  # sentences of a step that short ones are drawn together to
CONDITIONAL = (
    -1.0
)  # the weight above which what is to be done "if it is dry" stays; such sentences weigh less
DIVIDING = -0.5  # the weight above which what puts in a share of a made thing stays
ORDERING = frozenset({"order", "want", "let us"})


def build_method(
    speech: Speech,
    actions: Sequence[ActionSpan],
    resolve: Resolve | None = None,
    component_at: Callable[[int], str] | None = None,
    volumes: Mapping[int, Fraction] | None = None,
    larder: Larder | None = None,
    taken: Taken | None = None,
) -> list[Step]:
    """The steps of one dish from its spoken actions, in the order in which a reader cooks.

    ``resolve`` names what a reference stands for (the likeliest thing named before it where left out);
    ``component_at`` tells which part of the dish is being made at a token ("" for the main one); ``volumes``
    are the millilitres of the shares that were taken, by the token each share begins at; ``larder`` tells what
    belongs to the dish, ``taken`` the shares of it.
    """
    larder, taken = larder or Larder(), taken or Taken()
    sayable = (a for a in actions if belongs(a) or is_conditional(speech, a) or takes_a_share(larder, a))
    kept = larder.own(without_echoes(speech, (a for a in sayable if not is_aside(speech, a))))
    kept = sorted([*kept, *larder.untold(kept)], key=lambda action: action.at)
    resolve = resolve or References(reference_words(speech, actions), actions, larder.spoken_of(actions))
    component_at = component_at or (lambda _: "")
    writer = Writer(speech, kept, resolve, volumes or {}, larder, component_at, taken)
    parts, steps = in_steps(writer)
    shares = taken.untold(" ".join(step.text for step in steps), kept)
    if shares:
        kept = sorted([*without_shared(kept, shares), *shares], key=lambda action: action.at)
        parts, steps = in_steps(Writer(speech, kept, resolve, volumes or {}, larder, component_at, taken))
    put_in_unnamed(larder, parts, steps)
    return without_empty(with_oven_heated(each_note_once(drawn_together(without_empty(steps)))))


def in_steps(writer: Writer) -> tuple[list[list[ActionSpan]], list[Step]]:
    """A writer's actions in groups, and the step of each group."""
    ordered = ahead_first(writer.speech, writer.actions)
    parts = list(group(writer.speech, ordered, writer.component_at, writer.count))
    return parts, [writer.step(part, writer.component_at(part[0].at)) for part in parts]


def put_in_unnamed(larder: Larder, parts: Sequence[Sequence[ActionSpan]], steps: Sequence[Step]) -> None:
    """Say that a line's food goes in where no step names it, in the step of the action that is on it."""
    told = " ".join(step.text for step in steps).lower()
    for line in larder.lines:
        if line.optional or line.name.split()[-1].rstrip("s") in told:
            continue
        for part, step in zip(parts, steps, strict=True):
            if any(line in larder.lines_of(action) and not action.negated for action in part):
                step.text = f"{step.text} Add {listed([line.name])}.".strip()
                told += f" {line.name}"
                break


def drawn_together(steps: Sequence[Step]) -> list[Step]:
    """The steps with short ones of one part made one, none across a long wait."""
    found: list[Step] = []
    for step in steps:
        before = found[-1] if found else None
        if before is not None and goes_with(before, step):
            before.text = f"{before.text} {step.text}"
            join(before, [step])
        else:
            found.append(step)
    return found


def goes_with(before: Step, step: Step) -> bool:
    """Whether a step and the one before it are few enough sentences of one stage to be one step."""
    sentences = before.text.count(". ") + step.text.count(". ") + 2
    tied = step.text.startswith((AHEAD, MEANWHILE)) or before.text.startswith(AHEAD)
    waits = any(
        is_long(action.duration.low, action.duration.unit) for action in before.actions if action.duration
    )
    return before.component == step.component and sentences <= MOST_JOINED and not (tied or waits)


def without_empty(steps: Sequence[Step]) -> list[Step]:
    """The steps that say something; what was heard of actions left unsaid stays with the step beside them."""
    found: list[Step] = []
    unsaid: list[Step] = []
    for step in steps:
        if not step.text:
            unsaid.append(step)
            continue
        found.append(step)
        if len(found) == 1:
            continue
        join(found[-2], unsaid)
        unsaid = []
    if found:
        join(found[-1], unsaid)
    return found or list(steps[:1])


def join(step: Step, unsaid: Sequence[Step]) -> None:
    """Keep what was heard of actions that are left unsaid with a step."""
    for other in unsaid:
        step.actions += other.actions
        step.said += other.said
        step.notes += [note for note in other.notes if note not in step.notes]


def each_note_once(steps: list[Step]) -> list[Step]:
    """The steps without the notes that the step before already has."""
    for before, step in pairwise(steps):
        step.notes = [note for note in step.notes if note not in before.notes]
    return steps


def reference_words(speech: Speech, actions: Sequence[ActionSpan]) -> dict[int, str]:
    """The pronouns of the actions by their token, lower case."""
    phrases = (phrase for action in actions for phrase in (*action.objects, *action.place, *action.with_))
    return {phrase.start: speech.doc[phrase.start].lower_ for phrase in phrases if phrase.kind == "pronoun"}


def is_aside(speech: Speech, action: ActionSpan) -> bool:
    """Whether a food is only named in a warning or another note: "be careful, the oil will spit"."""
    plain = action.implied and action.heat is None and action.duration is None
    return plain and bool(note_text(speech, *action.utterance))


def without_echoes(speech: Speech, actions: Iterable[ActionSpan]) -> Iterator[ActionSpan]:
    """The actions without times that only speak of one told before: "and those 20 minutes", "its half hour"."""
    told: set[tuple[Fraction | None, str]] = set()
    for action in actions:
        time = action.duration
        if time is not None:
            again = time.start > 0 and speech.doc[time.start - 1].lower_ in words("tells again")
            if again and action.implied and action.verb == "cook" and in_seconds(time) in told:
                continue
            told.add(in_seconds(time))
        yield action


def in_seconds(time: Duration) -> tuple[Fraction | None, str]:
    """A time that equals any other as long: its seconds where its unit is known."""
    length = SECONDS.get(time.unit)
    return (time.low, time.unit) if length is None or time.low is None else (time.low * length, "")


def is_conditional(speech: Speech, action: ActionSpan) -> bool:
    """Whether an action is instructed for when something is so: "if it's dry, add the butter"."""
    told = action.supposed and not action.negated and action.mood != "other person"
    return (
        told
        and action.weight > CONDITIONAL
        and bool(condition_words(speech.doc, action.utterance[0], action.at))
    )


def takes_a_share(larder: Larder, action: ActionSpan) -> bool:
    """Whether an action puts in a share of a made thing: what is divided has to go somewhere."""
    if action.supposed or action.negated or action.mood == "other person" or action.weight <= DIVIDING:
        return False
    return any(larder.is_shared(phrase) and phrase.start in larder.made_at for phrase in action.objects)


def belongs(action: ActionSpan) -> bool:
    """Whether an action is in the method: it is instructed, or it carries a time or a heat.

    What only might be done, what somebody else does and what simply is not done are left out; "don't rinse
    them" is an instruction.
    """
    if action.mood == "other person":
        return False
    if action.heat is not None or action.duration is not None:
        return True
    if action.supposed or (action.negated and action.mood not in ORDERING):
        return False
    return is_instruction(action) and not (action.mood == "can" and action.group == "naming")
