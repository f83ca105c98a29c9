"""The usual cautions beside core temperatures: raw egg, flour and sprouts, kept rice, ferments, jars, oil."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from extract.lexicon import read_lexicon
from extract.measure.drafts.convert import ordinary_oven
from extract.model import Dish, Evidence, Ingredient
from extract.safety.caution import Caution
from extract.safety.classes import actions, cooked_after, cooks, holds, is_flesh, mentions, risky_foods, words
from extract.safety.phrases import Phrases
from extract.spot.names.foods import canonical, name_keys

TEXT_COLUMNS = ("kind", "short", "text", "source")
SIGN_COLUMNS = ("sign", "where", "kind")
_KEPT = ("leftover", "cold", "day old")
_SLOWEST_OVEN = 325  # °F; USDA FSIS, How Temperatures Affect Food


def usual_cautions(dish: Dish) -> Iterator[Caution]:
    """The usual cautions that the lines and the method of ``dish`` call for, one a kind and food."""
    for checks in (_raw_lines, _kept_rice, _signs_in_method, _poultry_washed, _slow_ovens, _dried_beans):
        yield from checks(dish)


def served_raw(dish: Dish) -> bool:
    """Whether the words of the dish say that flesh is served raw or cured by acid alone."""
    return any(kind == "raw flesh" for _, kind in _signs("text").find(_words_of(dish)))


@cache
def _texts() -> dict[str, tuple[str, str]]:
    rows = read_lexicon("cautions", columns=TEXT_COLUMNS)
    return {row["kind"]: (row["short"], row["text"]) for row in rows}


@cache
def _signs(where: str) -> Phrases[str]:
    rows = read_lexicon("caution_signs", columns=SIGN_COLUMNS)
    return Phrases.of({row["sign"]: row["kind"] for row in rows if row["where"] == where})


def _caution(kind: str, about: str, said: list[Evidence]) -> Caution:
    short, text = _texts()[kind]
    return Caution(kind, about, text, tuple(said[:1]), short, (about,) if about else ())


def _lines(dish: Dish) -> Iterator[Ingredient]:
    for component in dish.components:
        yield from component.ingredients


def _words_of(dish: Dish) -> str:
    """Title, lines and method as one text, in which a phrase never runs from one into the next."""
    lines = [f"{line.name} {line.preparation}" for line in _lines(dish)]
    steps = [step.text for step in dish.method]
    return " & ".join([dish.title, *lines, *steps])


def _raw_lines(dish: Dish) -> Iterator[Caution]:
    """Eggs, flour and sprouts that no heat comes to."""
    for risky in risky_foods(dish):
        if risky.food_class == "egg" and not risky.alternative and not cooked_after(dish, risky.food):
            yield _caution("raw egg", risky.food, risky.line.said)
    for line in _lines(dish):
        keys = name_keys(line.name)
        if keys[-1:] == ("flour",) and not cooked_after(dish, line.name):
            yield _caution("raw flour", line.name, line.said)
        kinds = [kind for _, kind in _signs("food").find(line.name)]
        if "raw sprouts" in kinds and not cooked_after(dish, line.name):
            yield _caution("raw sprouts", line.name, line.said)
        if "curing" in kinds:
            yield _caution("curing", line.name, line.said)


def _kept_rice(dish: Dish) -> Iterator[Caution]:
    for line in _lines(dish):
        if name_keys(canonical(line.name))[-1:] != ("rice",):
            continue
        described = f"{line.name} {line.preparation}"
        again = any(cooks(action) and mentions(action, "rice") for action in actions(dish))
        precooked = holds(described, _KEPT) or (again and holds(described, ["cooked"]))
        kept = [action for action in actions(dish) if action.verb.lower() in words("cool")]
        cooled = next((action for action in kept if mentions(action, "rice")), None)
        if precooked or cooled is not None:
            yield _caution("rice cooling", line.name, cooled.said if cooled else line.said)


def _signs_in_method(dish: Dish) -> Iterator[Caution]:
    """Fermenting, canning, curing and the like, by the cook's verbs and by words of the method."""
    seen: set[str] = set()
    for action in actions(dish):
        for _, kind in _signs("verb").find(action.verb):
            if kind not in seen:
                seen.add(kind)
                yield _caution(kind, "", action.said)
    for sign, kind in _signs("text").find(_words_of(dish)):
        if kind not in seen:
            seen.add(kind)
            said = next((step.said for step in dish.method if holds(step.text, [sign])), [])
            yield _caution(kind, "", said)


def _poultry_washed(dish: Dish) -> Iterator[Caution]:
    birds = [risky.food for risky in risky_foods(dish) if "poultry" in risky.food_class]
    for action in actions(dish):
        if action.verb.lower() in words("wash") and any(mentions(action, bird) for bird in birds):
            yield _caution("washing poultry", "", action.said)
            return


def _slow_ovens(dish: Dish) -> Iterator[Caution]:
    flesh = [risky.food for risky in risky_foods(dish) if is_flesh(risky.food_class)]
    for action in actions(dish):
        heat = action.heat
        if heat is None or heat.kind != "oven" or not any(mentions(action, food) for food in flesh):
            continue
        deg_f = ordinary_oven(heat)
        if deg_f is not None and deg_f < _SLOWEST_OVEN:
            yield _caution("slow oven", "", action.said)
            return


def _dried_beans(dish: Dish) -> Iterator[Caution]:
    for line in _lines(dish):
        kinds = [kind for _, kind in _signs("food").find(f"{line.preparation} {line.name}")]
        boiled = any(action.verb == "boil" and mentions(action, line.name) for action in actions(dish))
        if "dried kidney beans" in kinds and not boiled:
            yield _caution("dried kidney beans", line.name, line.said)
