"""The equipment of a dish, from the talk: each pan, tin and machine once, with the size that was said."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache, partial
from typing import TYPE_CHECKING

from extract.spot.actions.weight import is_instruction
from extract.spot.verbs.things import Equipment, equipment_at
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from extract.language.speech import Speech
    from extract.spot.actions.span import ActionSpan

SIZE_REACH = 6
VESSELS = frozenset({"pan", "tin", "dish", "bowl"})
GENERAL = {"pan": "pan", "pot": "pan", "tin": "tin", "tray": "tin", "bowl": "bowl", "mixer": "appliance"}


def equipment_list(
    speech: Speech, actions: Sequence[ActionSpan], utterances: Sequence[tuple[int, int]] = ()
) -> list[str]:
    """What the instructed actions of a dish use, in order of use; a plain "pan" gives way to a named one.

    The oven is listed where one is heated, whether or not it is named. Of the other ``utterances`` of the dish come
    the vessels whose size is told: "it's a two litre dish, this".
    """
    found: dict[str, tuple[Equipment, str]] = {}
    named = cache(partial(named_within, speech))  # many actions may stand in one utterance
    for action in actions:
        if not is_instruction(action) and action.heat is None and action.duration is None:
            continue
        if action.heat is not None and action.heat.kind == "oven":
            found.setdefault("oven", (Equipment("oven", "oven", listed=True), "oven"))
        for thing, text in named(*action.utterance):
            if thing.listed and len(text) > len(found.get(thing.name, (thing, ""))[1]):
                found[thing.name] = (thing, text)
    for span in utterances:
        for thing, text in named(*span):
            if thing.kind in VESSELS and text != thing.name and text.split()[0] not in words("size word"):
                found[thing.name] = max(
                    (thing, text), found.get(thing.name, (thing, "")), key=lambda row: len(row[1])
                )
    kinds = [thing.kind for thing, _ in found.values()]
    return [
        text
        for thing, text in found.values()
        if thing.name != text or thing.name not in GENERAL or kinds.count(GENERAL[thing.name]) == 1
    ]


def named_within(speech: Speech, start: int, end: int) -> list[tuple[Equipment, str]]:
    """The equipment named in a span of tokens, each with its size: "9-inch tart tin", "large bowl"."""
    found, at = [], start
    while at < end:
        thing = equipment_at(speech.doc, at, end)
        if thing is None or (thing[1] == at + 1 and speech.doc[at].pos_ == "VERB"):
            at += 1
            continue
        found.append((thing[0], f"{size_before(speech, at, start)}{thing[0].name}"))
        at = thing[1]
    return found


def size_before(speech: Speech, at: int, floor: int) -> str:
    """The size and make said before a thing, as words that end in a blank: "10-inch ", "large "."""
    kept: list[str] = []
    for back in range(at - 1, max(floor, at - SIZE_REACH) - 1, -1):
        token = speech.doc[back]
        word = token.lower_
        measures = word in words("size unit") or (
            token.like_num and bool(kept) and kept[0] in words("size unit")
        )
        joins = word in {"by", "x", "-"} and bool(kept)
        if not (measures or joins or word in words("size word") or (token.like_num and "by" in kept[:1])):
            break
        kept.insert(0, word)
    while kept and kept[0] in {"by", "x", "-"}:
        kept.pop(0)
    if not kept or kept[0] in words("size unit"):
        return ""
    return hyphened(kept) + " "


def hyphened(said: Sequence[str]) -> str:
    """Size words with figures and their unit joined: "9 by 13-inch", "large"."""
    text = " ".join(said).replace(" - ", "-")
    for unit in words("size unit"):
        text = text.replace(f" {unit}", f"-{unit}")
    return text
