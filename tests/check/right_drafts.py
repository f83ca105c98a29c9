"""Drafts whose lines are right, made from the answers of the labelled shows."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

from extract.model import RecipeDraft
from extract.spot.heat.levels import levels

_BREATH = 12.0  # seconds
_SIZE = re.compile(r"(\d+(?:\.\d+)?) (ounce|gram|millilitre)")


def right_draft(gold: Path) -> RecipeDraft:
    """The draft that a show's answer amounts to; each time and heat is a step of its own."""
    answer = json.loads(gold.read_text(encoding="utf-8"))
    dishes = [_dish(dish) for dish in answer["dishes"]]
    return RecipeDraft.model_validate({"source": {"file": gold.name, "sha256": ""}, "dishes": dishes})


def _moment(row: dict[str, Any], at: str = "at", cue: str = "cue") -> float:
    """The place of a row in seconds: its stamp, or its cue at five seconds each."""
    if row.get(at) is None:
        return 5.0 * int(row.get(cue, 0))
    seconds = 0.0
    for part in str(row[at]).split(":"):
        seconds = 60 * seconds + float(part)
    return seconds


def _said(row: dict[str, Any], text: str) -> list[dict[str, Any]]:
    start = _moment(row)
    return [{"cue": int(start), "start": start, "end": start + 5, "text": text}]


def _dish(dish: dict[str, Any]) -> dict[str, Any]:
    components: dict[str, dict[str, Any]] = {}
    for row in dish["ingredients"]:
        name = row.get("component", "")
        part = components.setdefault(name, {"name": name, "ingredients": [], "portions": []})
        part["ingredients"].append(_line(row))
    for row in dish.get("portions", []):
        part = components.setdefault(row["of"], {"name": row["of"], "ingredients": [], "portions": []})
        share = {"of": row["of"], "fraction": row["fraction"], "into": row.get("note", "")}
        part["portions"].append({**share, "said": _said(row, row["of"])})
    found = {
        "title": dish["title"],
        "start": _moment(dish, "start", "start_cue"),
        "end": _moment(dish, "end", "end_cue"),
        "components": list(components.values()),
        "method": _method(dish),
    }
    if dish.get("yield"):
        found["yield"] = {**_figures(dish["yield"]), "said": _said(dish["yield"], "")}
    if dish.get("batch"):
        told = dish["batch"]
        factor, of = (told["factor"], told.get("of")) if isinstance(told, dict) else (told, "")
        components.get(of or "", found)["batch"] = {"factor": factor}
    return found


def _figures(row: dict[str, Any]) -> dict[str, Any]:
    return {key: row.get(key) for key in ("low", "high", "unit")}


def _line(row: dict[str, Any]) -> dict[str, Any]:
    size = _SIZE.fullmatch(row.get("note") or "")
    amount = None if row["low"] is None else {**_figures(row), "approximate": row.get("approx", False)}
    if amount and size:
        amount["size"] = {"low": float(size[1]), "high": float(size[1]), "unit": size[2]}
    return {
        "name": row["name"],
        "amount": amount,
        "preparation": row.get("prep") or "",
        "optional": row.get("optional", False),
        "alternatives": row.get("alternatives", []),
        "said": _said(row, " ".join((row["name"], *row.get("also", [])))),
    }


def _method(dish: dict[str, Any]) -> list[dict[str, Any]]:
    """Times and heats in the order said; figures of one oven on several scales are one setting."""
    actions = [(_moment(row), 0, _timed(row)) for row in dish.get("times", [])]
    heats: list[tuple[dict[str, Any], dict[str, Any]]] = []
    for row in dish.get("heat", []):
        heat = _heat(row)
        last = heats[-1] if heats else None
        heat["fan"] = heat["fan"] or (last is not None and _is_fan_of(last, row))
        if last and _is_other_scale(last, row, heat):
            last[1]["equivalents"].append(heat)
        else:
            heats.append((row, heat))
    actions += [(_moment(row), 1, _heated(row, heat)) for row, heat in heats]
    actions.sort(key=lambda entry: entry[:2])
    return [{"text": "", "actions": [action], "said": action["said"]} for _, _, action in actions]


def _timed(row: dict[str, Any]) -> dict[str, Any]:
    words = (row.get("what") or "cook").split()
    rest = " ".join(words[1:]).removeprefix("the ")
    fields = {"verb": words[0].rstrip(","), "objects": [rest] if rest else [], "duration": _figures(row)}
    return {**fields, "said": _said(row, row.get("what", ""))}


def _heat(row: dict[str, Any]) -> dict[str, Any]:
    note = row.get("note") or ""
    fan = "fan" in note and "without" not in note
    level = row.get("level")
    level = levels()[1].get(level or "", (level, True))[0]  # as a draft gives it
    return {
        **_figures(row),
        "unit": row.get("unit") or "",
        "kind": row["kind"],
        "fan": fan,
        "level": level,
        "text": level or "",
        "equivalents": [],
    }


def _is_fan_of(last: tuple[dict[str, Any], dict[str, Any]], row: dict[str, Any]) -> bool:
    """Whether an oven's second figure in one breath is that of a fan oven: "180, and if yours is fan go 160"."""
    one = last[0]
    beside = abs(_moment(one) - _moment(row)) <= _BREATH and one["kind"] == row["kind"] == "oven"
    figures = one["low"] is not None and row["low"] is not None and not one["unit"] and not row["unit"]
    return beside and figures and 10 <= one["low"] - row["low"] <= 25


def _is_other_scale(
    last: tuple[dict[str, Any], dict[str, Any]], row: dict[str, Any], heat: dict[str, Any]
) -> bool:
    same = (_moment(last[0]) == _moment(row) or heat["fan"]) and last[1]["kind"] == heat["kind"] == "oven"
    return (
        same and heat["low"] is not None and (last[1]["unit"], last[1]["fan"]) != (heat["unit"], heat["fan"])
    )


def _heated(row: dict[str, Any], heat: dict[str, Any]) -> dict[str, Any]:
    words = (row.get("note") or "heat").split()
    rest = " ".join(words[1:])
    return {
        "verb": words[0].rstrip(",;"),
        "objects": [rest] if rest else [],
        "heat": heat,
        "said": _said(row, ""),
    }
