"""Heat settings and times of a written method, as the readers of speech find them and as print needs them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from extract.check.written.lines.tokens import tokens_of
from extract.check.written.method.plain_doc import as_doc
from extract.check.written.method.vocabulary import method_words
from extract.model import Duration, Heat
from extract.spot.heat.find import find_heat
from extract.spot.names.foods import kinds_of
from extract.spot.spans import Duration as DurationSpan
from extract.spot.spans import HeatKind, HeatSetting
from extract.spot.words import Words

_TIMES = ("second", "minute", "hour", "day")
_HOTTEST = {"degC": 125, "degF": 257}  # above which nothing is done inside
_IN_OVEN = frozenset(("oven", "ovens", "bake", "roast", "dry", "fan"))
_NEAR, _BEHIND = 6, 5


def one_a_setting(tokens: Sequence[str], heats: Sequence[HeatSetting]) -> list[HeatSetting]:
    """The settings with their equivalents gathered: "160 C fan (180 C conventional, gas mark 4)" is one."""
    found: list[HeatSetting] = []
    for heat in heats:
        last = found[-1] if found else None
        heat = replace(heat, kind=_kind(tokens, heat, last))
        if last is not None and last.low is not None and heat.low is not None:
            end = max(last.end, *(other.end for other in last.equivalents), last.end)
            if all(token.lower() in method_words("same setting") for token in tokens[end : heat.start]):
                found[-1] = replace(last, equivalents=(*last.equivalents, heat))
                continue
        found.append(heat)
    return found


def read_measured_heat(text: str) -> bool:
    """Whether a text gives a heat in figures: "Fire: indirect, lid at 180-200 C"."""
    doc = as_doc(tokens_of(text))
    return any(heat.low is not None for heat in find_heat(doc, Words.of(doc)))


def _kind(tokens: Sequence[str], heat: HeatSetting, last: HeatSetting | None) -> HeatKind:
    """What is heated; a figure that something "reads" or "reaches" is a core temperature unless oil does."""
    if last is not None and last.kind == "internal" and "oven" not in tokens[last.end : heat.start]:
        return heat.kind if heat.low is None else "internal"
    before = [token.lower() for token in tokens[max(0, heat.start - _NEAR) : heat.start]]
    after = [token.lower() for token in tokens[heat.end : heat.end + _BEHIND]]
    if heat.kind == "internal" and heat.low is not None and heat.low > _HOTTEST.get(heat.unit, heat.low):
        return "oven"
    within = bool(after) and after[0] in ("in", "at", "inside", "on") and "oven" not in after
    if heat.low is not None and within and not method_words("core").isdisjoint(after):
        return "internal"
    reads = any(word in method_words("reads") for word in before)
    if heat.kind in ("oven", "other") and not reads and _is_below_boiling(tokens, heat):
        sign = not method_words("until").isdisjoint(token.lower() for token in tokens[: heat.start])
        liquid = any("liquid" in kinds_of(token) for token in tokens)
        return "internal" if sign else "other" if liquid else heat.kind
    if heat.low is None or not reads:
        return heat.kind
    return "oil" if "oil" in before else heat.kind if "oven" in before else "internal"


def _is_below_boiling(tokens: Sequence[str], heat: HeatSetting) -> bool:
    """Whether a figure is one that no oven is set to, in a sentence without one: of a bath, or of what is cooked."""
    boiling = {"degC": 100, "degF": 212}.get(heat.unit)
    if boiling is None or heat.high is None or heat.high > boiling:
        return False
    return _IN_OVEN.isdisjoint(token.lower() for token in tokens)


def is_step_time(tokens: Sequence[str], time: DurationSpan) -> bool:
    """Whether a time is how long a step takes: not "a day ahead", not "every 10 minutes"."""
    if time.unit not in _TIMES:
        return False
    if time.unit == "second" and tokens[time.start].lower() in ("a", "the"):
        return False  # "onto a second plate"
    after = [token.lower() for token in tokens[time.end : time.end + 2]]
    before = [token.lower() for token in tokens[max(0, time.start - 2) : time.start + 1]]
    if time.unit == "day" and after[:1] and after[0] in method_words("not a time after"):
        return False
    if not method_words("storage").isdisjoint(token.lower() for token in tokens[: time.start]):
        return False
    if time.unit == "day" and "another" in before:
        return False
    return not any(word in method_words("not a time before") for word in before)


def heat_of(heat: HeatSetting) -> Heat:
    """A heat setting in the draft's form."""
    return Heat(
        kind=heat.kind,
        low=None if heat.low is None else float(heat.low),
        high=None if heat.high is None else float(heat.high),
        unit=heat.unit,
        fan=heat.fan,
        level=heat.level,
        text=heat.text,
        equivalents=[heat_of(other) for other in heat.equivalents],
    )


def duration_of(time: DurationSpan) -> Duration:
    """A length of time in the draft's form."""
    low = None if time.low is None else float(time.low)
    high = None if time.high is None else float(time.high)
    return Duration(low=low, high=high, unit=time.unit, text=time.text)
