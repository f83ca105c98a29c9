"""Drafts and dishes made in a line or two, for the tests of measures."""

from __future__ import annotations

from typing import Any

from extract.model import Dish, RecipeDraft


def said(text: str) -> list[dict[str, Any]]:
    return [{"cue": 0, "start": 1.0, "end": 4.0, "text": text}]


def line(name: str, low: float | None = None, unit: str = "", **more: Any) -> dict[str, Any]:
    """An ingredient line; ``high``, ``size`` (low, unit) and ``preparation`` by keyword."""
    amount = None
    if low is not None:
        amount = {"low": low, "high": more.pop("high", low), "unit": unit}
        if "size" in more:
            size, size_unit = more.pop("size")
            amount["size"] = {"low": size, "high": size, "unit": size_unit}
    return {"name": name, "amount": amount, "said": said(name), **more}


def action(verb: str, *objects: str, **more: Any) -> dict[str, Any]:
    """An action; ``heat`` as (kind, degrees, unit), ``minutes`` as a number, ``until`` in words."""
    done: dict[str, Any] = {"verb": verb, "objects": list(objects), "said": said(verb)}
    if "heat" in more:
        kind, degrees, unit = more["heat"]
        done["heat"] = {
            "kind": kind,
            "low": degrees,
            "high": degrees,
            "unit": unit,
            "fan": more.get("fan", False),
        }
    if "minutes" in more:
        done["duration"] = {"low": more["minutes"], "high": more["minutes"], "unit": "minute"}
    done.update({key: more[key] for key in ("until", "text") if key in more})
    return done


def make_dish(*lines: dict[str, Any] | str, title: str = "Supper", **more: Any) -> Dish:
    """A dish of ``lines`` (a name alone is a line without an amount); ``actions`` become a step each."""
    ingredients = [line(each) if isinstance(each, str) else each for each in lines]
    steps = [{"text": each.pop("text", each["verb"]), "actions": [each]} for each in more.pop("actions", ())]
    steps += [{"text": text} for text in more.pop("texts", ())]
    components = [{"name": "", "ingredients": ingredients, "portions": more.pop("portions", [])}]
    return Dish.model_validate({"title": title, "components": components, "method": steps, **more})


def make_draft(*dishes: Dish, **more: Any) -> RecipeDraft:
    source = {"file": "show.vtt", "sha256": "00"}
    return RecipeDraft.model_validate(
        {"source": source, "dishes": [dish.model_dump(by_alias=True) for dish in dishes], **more}
    )
