"""Drafts of invented dishes, made by hand, as a person would leave them after a review.

Every dish gives its lines as ``name, figure, unit`` with what else is said of them, and its steps as the
printed text with the actions in it. ``turns`` are pairs of steps whose order tells.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from extract.model import RecipeDraft

Line = tuple[str, float | None, str] | tuple[str, float | None, str, dict[str, Any]]


@dataclass(frozen=True, slots=True)
class Made:
    """A draft with what the tests have to know of it."""

    name: str
    draft: RecipeDraft
    turns: tuple[tuple[int, int], ...]


def said(text: str, start: float) -> list[dict[str, Any]]:
    return [{"cue": int(start // 5), "start": start, "end": start + 4, "text": text}]


def line(row: Line, start: float) -> dict[str, Any]:
    name, figure, unit, *more = row
    amount = None if figure is None else {"low": figure, "high": figure, "unit": unit}
    fields: dict[str, Any] = {
        "name": name,
        "amount": amount,
        "said": said(f"{figure or 'some'} {unit} {name}", start),
    }
    extra = dict(more[0]) if more else {}
    if "high" in extra and amount:
        amount["high"] = extra.pop("high")
    if "size" in extra and amount:
        low, size_unit = extra.pop("size")
        amount["size"] = {"low": low, "high": low, "unit": size_unit}
    return {**fields, **extra}


def act(verb: str, *objects: str, **more: Any) -> dict[str, Any]:
    minutes, hours = more.pop("minutes", None), more.pop("hours", None)
    fields: dict[str, Any] = {"verb": verb, "objects": list(objects), **more}
    span, unit = (minutes, "minute") if minutes else (hours, "hour")
    if span is not None:
        low, high = span if isinstance(span, tuple) else (span, span)
        fields["duration"] = {"low": low, "high": high, "unit": unit}
    return fields


def oven(figure: float, unit: str = "degC") -> dict[str, Any]:
    return {"kind": "oven", "low": figure, "high": figure, "unit": unit}


def level(name: str) -> dict[str, Any]:
    return {"kind": "hob", "level": name, "text": f"{name} heat"}


def made(
    title: str,
    parts: list[tuple[str, list[Line], list[tuple[str, float | str, str]]]],
    steps: list[tuple[str, list[dict[str, Any]]]],
    *,
    serves: tuple[float, float],
    turns: tuple[tuple[int, int], ...],
) -> Made:
    clock = iter(range(20, 4000, 12))
    components = []
    for name, lines, portions in parts:
        rows = [line(row, next(clock)) for row in lines]
        shares = [
            {"of": of, "fraction": share, "into": into, "said": said(f"{share} of the {of}", next(clock))}
            for of, share, into in portions
        ]
        components.append({"name": name, "ingredients": rows, "portions": shares})
    method = []
    for text, actions in steps:
        start = next(clock)
        for action in actions:
            action["said"] = said(text, start)
        method.append({"text": text, "actions": actions, "said": said(text, start)})
    dish = {
        "title": title,
        "start": 10.0,
        "end": 2000.0,
        "yield": {"low": serves[0], "high": serves[1], "unit": "servings", "said": said("it serves", 15.0)},
        "components": components,
        "method": method,
    }
    data = {"source": {"file": "show.vtt", "sha256": "00", "end": 2000.0, "cues": 400}, "dishes": [dish]}
    return Made(title, RecipeDraft.model_validate(data), turns)


STEW = made(
    "Barley and squash stew",
    [
        (
            "stew",
            [
                ("olive oil", 2, "tablespoon"),
                ("onion", 1, "", {"preparation": "finely chopped"}),
                ("garlic", 3, "clove", {"high": 4, "preparation": "crushed"}),
                ("smoked paprika", 1.5, "teaspoon"),
                ("butternut squash", 600, "gram", {"alternatives": ["pumpkin"]}),
                ("pearl barley", 0.75, "cup", {"preparation": "rinsed"}),
                ("chopped tomatoes", 1, "can", {"size": (14, "ounce")}),
                ("vegetable stock", 1.2, "litre"),
                ("kale", 100, "gram"),
                ("salt", None, ""),
            ],
            [],
        ),
        (
            "herb oil",
            [
                ("parsley", 1, "handful"),
                ("rapeseed oil", 100, "millilitre"),
                ("lemon juice", 1, "tablespoon", {"optional": True}),
            ],
            [("herb oil", 0.5, "over the stew"), ("herb oil", "rest", "into a jar")],
        ),
    ],
    [
        (
            "Heat the olive oil in a wide pan over a medium heat. Add the onion and cook for 8–10 minutes, "
            "until soft.",
            [
                act("heat", "olive oil", place=["pan"], heat=level("medium")),
                act("add", "onion"),
                act("cook", "onion", minutes=(8, 10), until="soft"),
            ],
        ),
        (
            "Stir in the garlic and smoked paprika and cook for 1 minute.",
            [act("stir in", "garlic", "smoked paprika"), act("cook", "garlic", minutes=1)],
        ),
        (
            "Add the butternut squash, pearl barley, chopped tomatoes and vegetable stock. Simmer over a "
            "low heat "
            "for 35 minutes, until the barley is tender.",
            [
                act("add", "butternut squash", "pearl barley", "chopped tomatoes", "vegetable stock"),
                act("simmer", "pearl barley", minutes=35, heat=level("low"), until="the barley is tender"),
            ],
        ),
        (
            "Stir in the kale and salt and cook for 4 minutes.",
            [act("stir in", "kale", "salt"), act("cook", "kale", minutes=4)],
        ),
        (
            "Blend the parsley with the rapeseed oil and the lemon juice.",
            [act("blend", "parsley", **{"with": ["rapeseed oil", "lemon juice"]})],
        ),
        (
            "Spoon half of the herb oil over the stew. Pour the rest of the herb oil into a jar.",
            [act("spoon", "herb oil", place=["stew"]), act("pour", "herb oil", place=["jar"])],
        ),
    ],
    serves=(4, 6),
    turns=((0, 1), (1, 2), (2, 3)),
)

CAKE = made(
    "Pear and hazelnut cake",
    [
        (
            "cake",
            [
                ("soft butter", 180, "gram"),
                ("golden caster sugar", 150, "gram"),
                ("eggs", 3, ""),
                ("self-raising flour", 200, "gram"),
                ("ground hazelnuts", 75, "gram", {"alternatives": ["ground almonds"]}),
                ("baking powder", 0.5, "teaspoon"),
                ("milk", 3, "tablespoon"),
                ("pears", 2, "", {"preparation": "peeled and diced"}),
            ],
            [],
        ),
        (
            "glaze",
            [
                ("apricot jam", 2, "tablespoon"),
                ("water", 1, "tablespoon"),
                ("flaked almonds", 1, "handful", {"optional": True}),
            ],
            [("glaze", 2 / 3, "over the hot cake"), ("glaze", "rest", "over the cold cake")],
        ),
    ],
    [
        ("Heat the oven to 180 °C.", [act("heat", "oven", heat=oven(180))]),
        (
            "Beat the soft butter with the golden caster sugar for 5 minutes, until pale.",
            [act("beat", "soft butter", **{"with": ["golden caster sugar"]}, minutes=5, until="pale")],
        ),
        (
            "Beat in the eggs. Fold in the self-raising flour, ground hazelnuts and baking powder, then "
            "stir in the "
            "milk and pears.",
            [
                act("beat in", "eggs"),
                act("fold in", "self-raising flour", "ground hazelnuts", "baking powder"),
                act("stir in", "milk", "pears"),
            ],
        ),
        (
            "Spoon into a 20 cm tin and bake for 45–50 minutes, until a skewer comes out clean.",
            [
                act("spoon", place=["tin"]),
                act("bake", minutes=(45, 50), until="a skewer comes out clean"),
            ],
        ),
        (
            "Melt the apricot jam with the water over a low heat for 3 minutes.",
            [act("melt", "apricot jam", **{"with": ["water"]}, minutes=3, heat=level("low"))],
        ),
        (
            "Brush two thirds of the glaze over the hot cake. Leave for 1 hour, then brush the rest of the "
            "glaze "
            "over the cold cake and scatter with the flaked almonds.",
            [
                act("brush", "glaze", place=["cake"]),
                act("leave", hours=1),
                act("brush", "glaze", place=["cake"]),
                act("scatter", **{"with": ["flaked almonds"]}),
            ],
        ),
    ],
    serves=(10, 10),
    turns=(),
)

ROAST = made(
    "Mustard roast chicken",
    [
        (
            "rub",
            [
                ("coarse salt", 2, "tablespoon"),
                ("brown sugar", 1, "tablespoon"),
                ("dry mustard", 2, "teaspoon"),
                ("cayenne", 0.25, "teaspoon"),
            ],
            [("rub", 0.75, "over the chicken"), ("rub", "rest", "into the pan")],
        ),
        (
            "roast",
            [
                ("chicken", 4, "pound"),
                ("carrots", 1.5, "pound"),
                ("celery", 2, "rib"),
                ("cider", 1, "cup", {"alternatives": ["apple juice"]}),
                ("bay leaves", 2, ""),
            ],
            [],
        ),
        (
            "gravy",
            [
                ("all-purpose flour", 3, "tablespoon"),
                ("chicken stock", 2.5, "cup"),
                ("Worcestershire sauce", 1, "teaspoon"),
                ("butter", 1, "knob"),
            ],
            [],
        ),
    ],
    [
        (
            "Mix the coarse salt, brown sugar, dry mustard and cayenne. Spread three quarters of the rub "
            "over the "
            "chicken and chill for 2 hours.",
            [
                act("mix", "coarse salt", "brown sugar", "dry mustard", "cayenne"),
                act("spread", "rub", place=["chicken"]),
                act("chill", "chicken", hours=2),
            ],
        ),
        (
            "Heat the oven to 425 °F. Put the carrots, celery and bay leaves in a roasting pan with the "
            "rest of the "
            "rub, set the chicken on top and roast for 30 minutes.",
            [
                act("heat", "oven", heat=oven(425, "degF")),
                act("put", "carrots", "celery", "bay leaves", place=["pan"]),
                act("set", "chicken"),
                act("roast", "chicken", minutes=30),
            ],
        ),
        (
            "Pour in the cider, lower the oven to 350 °F and roast for 50 minutes more, until a thermometer "
            "in the "
            "thigh reads 165 °F.",
            [
                act("pour", "cider"),
                act("lower", "oven", heat=oven(350, "degF")),
                act(
                    "roast",
                    "chicken",
                    minutes=50,
                    heat={"kind": "internal", "low": 165, "high": 165, "unit": "degF"},
                    until="a thermometer in the thigh reads 165 °F",
                ),
            ],
        ),
        ("Rest the chicken for 15 minutes.", [act("rest", "chicken", minutes=15)]),
        (
            "Stir the all-purpose flour into the pan over a medium heat for 2 minutes, then whisk in the "
            "chicken "
            "stock and Worcestershire sauce. Simmer for 10–12 minutes and swirl in the butter.",
            [
                act("stir", "all-purpose flour", place=["pan"], minutes=2, heat=level("medium")),
                act("whisk in", "chicken stock", "Worcestershire sauce"),
                act("simmer", "chicken stock", minutes=(10, 12)),
                act("swirl in", "butter"),
            ],
        ),
    ],
    serves=(6, 6),
    turns=((1, 2),),
)

ALL = (STEW, CAKE, ROAST)
