"""One change to the published page of a draft: of each kind, on each line that can take it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from made_drafts import Made
from near_foods import NEAR

from extract.publish.markdown import page

ROW = re.compile(r"^- (?:(?P<amount>[^*]*?) )?\*\*(?P<name>[^*]+)\*\*(?P<rest>.*)$")
STEP = re.compile(r"^\d+\. ")
FIGURE = re.compile(r"\d+(?: \d/\d|/\d|\.\d+)?")
TIME = re.compile(r"(\d+(?:–\d+)?) (minutes?|hours?)")
HEAT = re.compile(r"(\d+) °[CF]")
SIBLINGS = {
    "teaspoon": ("tablespoon", "cup"),
    "teaspoons": ("tablespoons", "cups"),
    "tablespoon": ("teaspoon", "cup"),
    "tablespoons": ("teaspoons", "cups"),
    "cup": ("pint", "tablespoon", "ounce"),
    "cups": ("pints", "tablespoons", "pounds"),
    "pounds": ("ounces", "kg"),
    "g": ("ounces", "kg", "ml"),
    "ml": ("tablespoons", "litres", "fl oz"),
    "litres": ("pints", "ml", "cups"),
    "cloves": ("heads", "tablespoons"),
    "can": ("cup", "jar"),
}
LEVELS = ("low", "medium-low", "medium", "medium-high", "high")
SHARES = {
    "half": ("a third", "two thirds", "a quarter"),
    "two thirds": ("half", "a third", "three quarters"),
    "three quarters": ("half", "a quarter", "two thirds"),
    "a third": ("half", "two thirds"),
}


@dataclass(frozen=True, slots=True)
class Mutation:
    """The page with one thing changed; ``kinds`` is what a check may call it, ``about`` its subject."""

    what: str
    kinds: frozenset[str]
    about: str
    text: str


def mutations(made: Made) -> Iterator[Mutation]:
    """Every change to the page of one draft."""
    lines = page(made.draft).splitlines()
    for place, line in enumerate(lines):
        row = ROW.match(line)
        if row:
            yield from _of_row(lines, place, row)
        elif STEP.match(line):
            yield from _of_step(lines, place)
        elif line.startswith(("- Makes: ", "- Serves: ")):
            for count in ("16", "1", "100–120"):
                new = re.sub(r"\d+(?:–\d+)?", count, line, count=1)
                yield _changed(f"yield of {count}", "yield", lines, place, new)
            yield _without("yield dropped", "yield", lines, place)
    yield from _orders(made, lines)
    yield from _shares(lines)
    yield _batch(lines)
    yield from _components(made, lines)


def _changed(what: str, kinds: str, lines: list[str], place: int, new: str, about: str = "") -> Mutation:
    text = "\n".join([*lines[:place], new, *lines[place + 1 :]]) + "\n"
    return Mutation(f"{what}: {lines[place]}", frozenset(kinds.split("/")), about, text)


def _without(what: str, kinds: str, lines: list[str], place: int, about: str = "") -> Mutation:
    text = "\n".join(lines[:place] + lines[place + 1 :]) + "\n"
    return Mutation(f"{what}: {lines[place]}", frozenset(kinds.split("/")), about, text)


def _of_row(lines: list[str], place: int, row: re.Match[str]) -> Iterator[Mutation]:
    line, name, amount, rest = lines[place], row["name"], row["amount"] or "", row["rest"]
    figure = FIGURE.search(amount)
    if figure:
        new = f"{amount[: figure.start()]}7{amount[figure.end() :].removeprefix('–4')}"
        yield _changed("amount", "amount", lines, place, line.replace(amount, new, 1), name)
        yield _changed("amount dropped", "amount", lines, place, line.replace(f"{amount} ", "", 1), name)
    elif amount:
        yield _changed("amount by feel", "amount/unit", lines, place, line.replace(amount, "3 cups", 1), name)
    unit = amount.split()[-1] if amount else ""
    for other in SIBLINGS.get(unit, ()):
        new = f"{amount[: -len(unit)]}{other}"
        yield _changed(f"unit to {other}", "unit/amount", lines, place, line.replace(amount, new, 1), name)
    if not amount:
        new = line.replace("- **", "- 3 tablespoons **", 1)
        yield _changed("amount never said", "amount", lines, place, new, name)
    for other in NEAR[name]:
        new = line.replace(f"**{name}**", f"**{other}**", 1)
        yield _changed(
            f"exchanged for {other}", "missing/extra/alternative/amount/unit", lines, place, new, ""
        )
    yield _said_and_not_written(lines, place, name)
    yield _changed(
        "written and not said", "extra", lines, place, f"{line}\n- 2 tablespoons **quark**", "quark"
    )
    if "(or " in rest:
        yield _changed(
            "choice dropped", "alternative", lines, place, re.sub(r" \(or [^)]*\)", "", line), name
        )
    elif "(optional" in rest:
        yield _changed("optional dropped", "optional", lines, place, line.replace(" (optional)", ""), name)
        yield _changed("food changed", "missing/extra", lines, place, line.replace(name, "quark"), name)
    else:
        yield _changed("choice added", "alternative", lines, place, f"{line.rstrip()} (or quark)", name)
        yield _changed("optional added", "optional", lines, place, f"{line.rstrip()} (optional)", name)


def _said_and_not_written(lines: list[str], place: int, name: str) -> Mutation:
    """The line taken out, and its food out of the method."""
    kept = [line for number, line in enumerate(lines) if number != place]
    return Mutation(
        f"missing: {lines[place]}",
        frozenset({"missing", "component"}),
        name,
        "\n".join(line.replace(name, "rest") if STEP.match(line) else line for line in kept) + "\n",
    )


def _of_step(lines: list[str], place: int) -> Iterator[Mutation]:
    line = lines[place]
    for match in TIME.finditer(line):
        new = f"{line[: match.start()]}77 {match[2].rstrip('s')}s{line[match.end() :]}"
        yield _changed("time", "time", lines, place, new)
        cut = re.sub(rf" ?(?:for|more)? ?{re.escape(match[0])}(?: more)?", "", line, count=1)
        yield _changed("time dropped", "time", lines, place, cut)
    for match in HEAT.finditer(line):
        new = f"{line[: match.start(1)]}{int(match[1]) - 25}{line[match.end(1) :]}"
        yield _changed("temperature", "temperature", lines, place, new)
    for level in LEVELS:
        for other in LEVELS:
            if f" {level} heat" in line and other != level:
                new = line.replace(f" {level} heat", f" {other} heat", 1)
                yield _changed(f"level to {other}", "temperature", lines, place, new)


def _orders(made: Made, lines: list[str]) -> Iterator[Mutation]:
    steps = [place for place, line in enumerate(lines) if STEP.match(line)]
    for first, second in made.turns:
        turned = list(lines)
        turned[steps[first]], turned[steps[second]] = turned[steps[second]], turned[steps[first]]
        yield Mutation(
            f"order: {first + 1} and {second + 1}", frozenset({"order"}), "", "\n".join(turned) + "\n"
        )


def _shares(lines: list[str]) -> Iterator[Mutation]:
    """A share, changed wherever the page gives it."""
    text = "\n".join(lines) + "\n"
    for share, others in SHARES.items():
        for other in others if f"{share} of the" in text else ():
            new = text.replace(f"{share} of the", f"{other} of the")
            new = new.replace(f"{share.capitalize()} of the", f"{other.capitalize()} of the")
            yield Mutation(f"portion: {share} to {other}", frozenset({"portion"}), "", new)


def _batch(lines: list[str]) -> Mutation:
    """Every measured amount twice as large."""

    def doubled(line: str) -> str:
        row = ROW.match(line)
        if not row or not row["amount"] or not FIGURE.search(row["amount"]):
            return line
        return line.replace(row["amount"], FIGURE.sub(lambda figure: _twice(figure[0]), row["amount"]), 1)

    return Mutation("batch", frozenset({"batch"}), "", "\n".join(doubled(line) for line in lines) + "\n")


def _twice(figure: str) -> str:
    whole, _, part = figure.partition(" ") if " " in figure else ("0", "", figure)
    value = float(whole) + (
        float(part.split("/")[0]) / float(part.split("/")[1]) if "/" in part else float(part)
    )
    return f"{2 * value:g}"


def _components(made: Made, lines: list[str]) -> Iterator[Mutation]:
    """A whole component with its lines taken out, and its foods out of the method."""
    for component in made.draft.dishes[0].components:
        names = [line.name for line in component.ingredients]
        rows = [line for line in lines if (row := ROW.match(line)) and row["name"] in names]
        kept = [line for line in lines if line not in rows and line != f"#### {component.name.capitalize()}"]
        for name in names:
            kept = [line.replace(name, "rest") if STEP.match(line) else line for line in kept]
        what = f"component: {component.name}"
        yield Mutation(what, frozenset({"component"}), component.name, "\n".join(kept) + "\n")
