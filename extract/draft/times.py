"""How long a dish takes, added up from the times of its method."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import timedelta

from extract.model import Action, Duration, Step, Times
from extract.spot.verbs.forms import verb_forms
from extract.spot.verbs.words import words

SECONDS = {"second": 1, "minute": 60, "hour": 3600, "day": 86400}
LONGEST = 10.0 * 366 * 86400  # ten years: vinegar and ham are done by then
UNATTENDED = 600.0  # heat for ten minutes and more is left to itself, unless the verb says otherwise
MEANWHILE = "Meanwhile"


@dataclass(slots=True)
class Sums:
    """Seconds added up so far; ``spare`` is the waiting during which other work goes on.

    ``last`` is the length of the last time that was told.
    """

    active: float = 0.0
    waiting: float = 0.0
    preparation: float = 0.0
    cooking: float = 0.0
    total: float = 0.0
    spare: float = 0.0
    last: float = 0.0


def dish_times(method: Sequence[Step]) -> Times | None:
    """The times of a method, None where it holds no figures.

    Of a range the lower end counts. Work in a step that begins "Meanwhile" goes on during the wait before it
    and lengthens the total only where it takes longer. ``at_least`` is true where any action has no time.
    """
    sums = Sums()
    for step in method:
        parallel = step.text.startswith(MEANWHILE)
        if not parallel:
            sums.spare = 0.0
        for action in step.actions:
            add(sums, action, parallel=parallel)
    if not sums.total:
        return None
    unsaid = any(action.duration is None for step in method for action in step.actions)
    return Times(
        active=iso(sums.active),
        waiting=iso(sums.waiting),
        preparation=iso(sums.preparation),
        cooking=iso(sums.cooking),
        total=iso(sums.total),
        at_least=unsaid,
    )


def add(sums: Sums, action: Action, *, parallel: bool) -> None:
    """Add the time of one action where it belongs."""
    if action.duration is None or action.duration.low is None:
        return
    length = seconds(action.duration)
    if length is None:
        return
    if (
        action.duration.moment
    ):  # "after two hours" lies within the time of what cooks, as far as that was told
        length = max(0.0, length - sums.last)
    else:
        sums.last = length
    waits = is_waiting(action, length)
    inside = min(length, sums.spare) if parallel else 0.0
    sums.spare -= inside
    sums.total += length - inside
    if waits:
        sums.waiting += length - inside
        sums.spare += length - inside
    else:
        sums.active += length
        sums.waiting -= inside
    if work_of(action) == "heat":
        sums.cooking += length - inside
    else:
        sums.preparation += length - inside


def seconds(duration: Duration) -> float | None:
    """The least length of a time in seconds, None without figures or where no kitchen waits that long."""
    if duration.low is None or duration.unit not in SECONDS:
        return None
    length = duration.low * SECONDS[duration.unit]
    return length if length <= LONGEST else None


def work_of(action: Action) -> str:
    """The kind of work of a verb, as in ``lexicons/words/verbs.tsv``; "" for a verb it lacks."""
    first = action.verb.split()[0] if action.verb else ""
    oven = action.heat is not None or any(
        place.split()[-1] in words("place of cooking") for place in action.place
    )
    entry = verb_forms().get(first)
    if oven and action.verb not in words("wait at any heat"):
        return "heat"
    return entry[0].group if entry is not None else ""


def is_waiting(action: Action, length: float) -> bool:
    """Whether the cook's hands are free during an action."""
    work = work_of(action)
    if work in {"mix", "cut", "shape", "season", "serve"} or action.verb in words("needs the cook"):
        return False
    return work != "heat" or length >= UNATTENDED


def iso(length: float) -> str | None:
    """Seconds as an ISO 8601 duration, None for nothing."""
    if length <= 0:
        return None
    import isodate

    return str(isodate.duration_isoformat(timedelta(seconds=round(length))))
