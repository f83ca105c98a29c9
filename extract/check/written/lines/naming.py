"""Telling the food's name from what surrounds it: sizes, preparations, remarks, choices."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from extract.check.written.lines.tokens import joined
from extract.check.written.lines.units import unit_named
from extract.check.written.lines.words import words_of
from extract.spot.names.foods import look_up, meaning, name_keys, word_key
from extract.spot.names.identity import sameness

_CUTS = ("breast", "thigh")


@dataclass(slots=True)
class Named:
    """A food's name and what was said around it. ``unit``: a unit that stood behind the name, or ""."""

    name: str = ""
    unit: str = ""
    preparations: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    alternatives: list[str] = field(default_factory=list)
    optional: bool = False


def name_food(core: Sequence[str], remarks: Sequence[Sequence[str]] = (), *, counted: bool = False) -> Named:
    """The food that ``core`` (a line without its amount and brackets) names.

    ``counted``: the line gives a plain count, so that "garlic cloves" is cloves of garlic.
    """
    named = Named()
    head, tail = _at_comma(_without_loose(list(core), named))
    head = _part_of(head, tail)
    head, choices = _choices(head)
    for choice in choices:
        _add_choice(named, choice)
    head = _strip_front(head, named)
    head = _strip_back(head, named)
    if tail:
        _add_tail(named, tail)
    for remark in remarks:
        _add_remark(named, list(remark))
    head = _unit_behind(head, named, counted=counted)
    named.name = joined(head).strip(" -,.:;*")
    return named


def split_foods(core: list[str]) -> list[list[str]]:
    """ "salt and freshly ground pepper" as two foods; one where the words do not list foods."""
    if len(listed := _split_at(core, (",",))) > 1 and all(
        look_up(name_keys(joined(each))) for each in listed
    ):
        return listed
    head, tail = _at_comma(list(core))
    lower = [token.lower() for token in head]
    for at, token in enumerate(lower):
        if token not in words_of("joiner") or not 0 < at < len(head) - 1:
            continue
        left, right = head[:at], head[at + 1 :]
        if all(_is_food_word(side) for side in (left, right)):
            return [left, [*right, *([","] if tail else []), *tail]]
    return [core]


def _is_food_word(tokens: Sequence[str]) -> bool:
    """Whether the words hold something besides preparations, sizes and fillers."""
    return any(_is_noun(token) for token in tokens)


def _is_noun(token: str) -> bool:
    lower = token.lower()
    if not lower[0].isalpha():
        return False
    return not any(
        lower in words_of(kind) for kind in ("preparation", "manner", "size", "filler", "state", "cut")
    )


def _without_loose(core: list[str], named: Named) -> list[str]:
    """The line without remarks such as "to taste", "for serving", "if desired", which become notes."""
    lower = [token.lower() for token in core]
    for phrase in sorted(words_of("loose"), key=len, reverse=True):
        words = phrase.split()
        for at in range(1, len(lower) - len(words) + 1):
            if lower[at : at + len(words)] == words:
                named.notes.append(phrase)
                named.optional = named.optional or phrase in words_of("optional")
                core = core[:at] + core[at + len(words) :]
                lower = [token.lower() for token in core]
                break
    while core and core[-1] in (",", ";", "-", ":", ".", "/"):
        core = core[:-1]
    return core


def _at_comma(core: list[str]) -> tuple[list[str], list[str]]:
    """What stands before the first comma that follows a noun, and what stands behind it."""
    if (behind := _behind_adjectives(core)) is not None:
        return behind
    for at, token in enumerate(core):
        if token in (",", ";", "-", ":", "+") and _is_food_word(core[:at]) and not _hyphened(core, at):
            return core[:at], core[at + 1 :]
    return [token for token in core if token != ","], []


def _behind_adjectives(core: list[str]) -> tuple[list[str], list[str]] | None:
    """ "hot, not boiling, water": the food behind the last comma where nothing before it is one."""
    if core.count(",") < 2:
        return None
    last = len(core) - 1 - core[::-1].index(",")
    before, behind = core[:last], core[last + 1 :]
    first = before[: before.index(",")] if "," in before else before
    if not behind or look_up(name_keys(joined(behind))) is None or meaning(joined(first)).entry is not None:
        return None
    plain = all(token.lower() in words_of("state") | words_of("size") for token in first)
    return (behind, before) if plain else None


def _hyphened(core: Sequence[str], at: int) -> bool:
    return core[at] == "-" and at > 0 and core[at - 1][-1:].isdigit()


def _part_of(head: list[str], tail: list[str]) -> list[str]:
    """ "zest of lemon" and "lemon, juice of" as "lemon zest", "lemon juice"."""
    lower = [token.lower() for token in head]
    if "of" in lower:
        at = lower.index("of")
        part = " ".join(lower[:at]).removeprefix("the ").removeprefix("finely ").removeprefix("freshly ")
        if part in words_of("part"):
            idle = words_of("filler") | words_of("size") | words_of("state")
            fruit = [token for token in head[at + 1 :] if token.lower() not in idle]
            fruit = [*fruit[:-1], *map(word_key, fruit[-1:])]
            return [*fruit, *([lower[at - 1]] if " and " not in f" {part} " else [])]
    words = [token.lower() for token in tail]
    if words[-1:] == ["of"] and (part := " ".join(words[:-1])) in words_of("part") and "and" not in words:
        tail.clear()
        return [*head, part.split()[-1]]
    return head


def _choices(head: list[str]) -> tuple[list[str], list[list[str]]]:
    """The food before " or ", and the foods after it; adjectives alone before it belong to what follows."""
    lower = [token.lower() for token in head]
    for at, token in enumerate(lower):
        if token not in ("or", "/") or at == 0 or at == len(head) - 1:
            continue
        if not _is_food_word(head[:at]):
            return [*head[:at], *head[at + 1 :]], []
        return _with_shared_head(head[:at], head[at + 1 :]), [head[at + 1 :]]
    return head, []


def _with_shared_head(first: list[str], second: list[str]) -> list[str]:
    """The first of two choices with the words both end in: "chicken" in "chicken or vegetable stock"."""
    for start in range(1, len(second)):
        whole = [*first, *second[start:]]
        if look_up(name_keys(" ".join(whole))) is not None:
            return whole
    return first


def _add_choice(named: Named, tokens: list[str]) -> None:
    other = name_food(tokens)
    vague = {token.lower() for token in tokens} & words_of("no choice")
    if other.name and _is_food_word(tokens) and not vague:
        named.alternatives.append(other.name)
        named.alternatives.extend(other.alternatives)


def _strip_front(head: list[str], named: Named) -> list[str]:
    """The words before the food: "of", sizes and preparations go, what tells the food apart stays."""
    while len(head) > 1:
        word = head[0].lower()
        if _is_own_food(head):
            return head
        if word in words_of("preparation") and _ends_in_noun(head[1:]):
            named.preparations.append(word)
        elif word in words_of("manner") and len(head) > 2 and head[1].lower() in words_of("preparation"):
            named.preparations.append(f"{word} {head[1].lower()}")
            head = head[1:]
        elif word in words_of("size"):
            named.notes.append(word)
        elif word not in words_of("filler") and head[0][0].isalpha():
            return head
        head = head[1:]
        if head and head[0] in ("-", ","):
            head = head[1:]
    return head


def _is_own_food(head: Sequence[str]) -> bool:
    """Whether the words before a food make another of it: "sliced almonds", "ground almonds"."""
    whole, bare = (look_up(name_keys(joined(words))) for words in (head, head[1:]))
    if whole is None or bare is None or whole.name == bare.name:
        return False
    return sameness(whole.name, bare.name) not in ("same", "sort")


def _ends_in_noun(tokens: Sequence[str]) -> bool:
    return bool(tokens) and any(
        token[0].isalpha() and token.lower() not in words_of("preparation") for token in tokens
    )


def _strip_back(head: list[str], named: Named) -> list[str]:
    """What follows the food without a comma: "butter softened", "onion cut into rings", "oil for frying"."""
    lower = [token.lower() for token in head]
    for at in range(1, len(head)):
        if not _is_food_word(head[:at]):
            continue
        if lower[at] in words_of("cut") or _packed(lower, at) or _prepared_from(lower, at):
            phrase = joined(head[at:])
            (
                named.notes if lower[at] in words_of("cut") or _packed(lower, at) else named.preparations
            ).append(phrase)
            return head[:at]
    return head


def _packed(lower: Sequence[str], at: int) -> bool:
    """Whether the words from ``at`` on say what a food is packed in or cut to: "peaches in juice", "leeks in rings"."""
    ends = words_of("packed") | words_of("cut to")
    return lower[at] == "in" and bool(lower[at + 1 :]) and lower[-1] in ends


def _prepared_from(lower: Sequence[str], at: int) -> bool:
    """Whether the words from ``at`` on are a preparation behind the food, not one before a further noun."""
    end = at
    while end < len(lower) and lower[end] in words_of("manner"):
        end += 1
    if end >= len(lower) or lower[end] not in words_of("preparation"):
        return False
    after = lower[end + 1] if end + 1 < len(lower) else ""
    return after in (
        "",
        "and",
        "in",
        "into",
        "on",
        "with",
        "to",
        "&",
        "lengthwise",
        "crosswise",
    ) or after in words_of("manner")


def _add_tail(named: Named, tail: list[str]) -> None:
    """What stands behind the comma: a choice of foods, or how the food is made ready."""
    lower = [token.lower() for token in tail]
    if lower[0] == "or" and len(tail) > 1:
        _add_choice(named, tail[1:])
    elif lower[0] in words_of("cut"):
        named.notes.append(joined(tail))
    else:
        named.preparations.append(joined(tail))


def _add_remark(named: Named, remark: list[str]) -> None:
    lower = [token.lower() for token in remark]
    if not lower:
        return
    if lower[0] == "or":
        for part in _split_at(remark[1:], ("or",)):
            _add_choice(named, [token for token in part if token != ","])
    elif any(f" {phrase} " in f" {' '.join(lower)} " for phrase in words_of("optional")):
        named.optional = True
    else:
        named.notes.append(joined(remark))


def _split_at(tokens: Sequence[str], words: Sequence[str]) -> list[list[str]]:
    parts: list[list[str]] = [[]]
    for token in tokens:
        if token.lower() in words:
            parts.append([])
        else:
            parts[-1].append(token)
    return [part for part in parts if part]


def _unit_behind(head: list[str], named: Named, *, counted: bool) -> list[str]:
    """ "garlic cloves" as cloves of garlic where the line counts them; "chicken breasts" as chicken."""
    while len(head) > 1:
        phrase = " ".join(token.lower() for token in head[-2:])
        unit = unit_named(head[-1])
        if unit is None or not unit.after or phrase in words_of("whole"):
            return head
        if not counted and unit.name not in _CUTS:
            return head
        if unit.name in _CUTS:
            named.preparations.append(head[-1].lower())
        named.unit = unit.name if counted and not named.unit else named.unit
        head = head[:-1]
    return head
