"""One dish of a written recipe: the lines and steps that were found of it in, the draft's form of it out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from extract.check.written.layout.blocks import Block
from extract.check.written.lines.clean import clean_line
from extract.check.written.lines.line import read_line
from extract.check.written.lines.tokens import tokens_of
from extract.check.written.method.mentions import Larder
from extract.check.written.method.method import read_step
from extract.check.written.method.portions import WrittenShare, find_written_shares, some_of
from extract.model import Batch, Component, Dish, Portion, Step, Written, Yield
from extract.spot.names.foods import look_up, name_keys


@dataclass(slots=True)
class Reading:
    """What has been read of one dish."""

    title: str = ""
    count: Yield | None = None
    batch: Batch | None = None
    lines: list[tuple[str, Block]] = field(default_factory=list)
    steps: list[tuple[str, Block]] = field(default_factory=list)
    shares: list[tuple[str, Block]] = field(default_factory=list)
    heats: list[tuple[str, Block]] = field(default_factory=list)  # told above the list: "Oven: 180 C"

    def dish(self) -> Dish:
        components: dict[str, Component] = {}
        for name, block in self.lines:
            component = components.setdefault(name, Component(name=name))
            component.ingredients.extend(read_line(block.text, block.line))
        parts = [part.name.lower() for part in components.values() if len(part.ingredients) > 1]
        made = {name for name in parts if look_up(name_keys(name)) is None}
        for part in components.values():  # a line of a part elsewhere is a share of it, no food
            elsewhere = made - {part.name.lower()}
            part.ingredients = [line for line in part.ingredients if line.name.lower() not in elsewhere]
        larder = _larder(components.values())
        method: list[Step] = []
        for name, block in (*self.heats, *self.steps):
            step, portions = read_step(block.text, block.line, name, larder)
            method.append(step)
            if portions:
                components.setdefault(name, Component(name=name)).portions.extend(portions)
        self._listed_shares(components)
        dish = Dish(title=self.title, components=list(components.values()), method=method)
        dish.yield_, dish.batch = self.count, self.batch
        return dish

    def _listed_shares(self, components: dict[str, Component]) -> None:
        """The shares that the ingredient lists deal out, which are all of them unless the method contradicts them.

        A thing of which the method deals out another share than the list is left to the method.
        """
        listed = [(name, portion) for name, block in self.shares if (portion := _listed_portion(block))]
        for thing in dict.fromkeys(_head(portion) for _, portion in listed):
            shares = [(name, portion) for name, portion in listed if _head(portion) == thing]
            told = {
                "rest",
                *(portion.fraction for _, portion in shares),
            }  # a rest is what the list's shares leave
            parts = list(components.values())
            if {p.fraction for part in parts for p in part.portions if _head(p) == thing} <= told:
                for part in parts:
                    part.portions = [p for p in part.portions if _head(p) != thing]
                for name, portion in shares:
                    components.setdefault(name, Component(name=name)).portions.append(portion)


def _larder(components: Iterable[Component]) -> Larder:
    lines = [line for component in components for line in component.ingredients]
    foods = [line.name for line in lines] + [name for line in lines for name in line.alternatives]
    return Larder(foods, [component.name for component in components if component.name])


def _listed_portion(block: Block) -> Portion | None:
    share = leading_share(block.text)
    if share is None:
        return None
    place = Written(line=block.line, text=block.text)
    return Portion(fraction=share.fraction, of=share.of, written=place)


def _head(portion: Portion) -> str:
    """The noun of what is shared: "sauce" of "the red sauce"."""
    return portion.of.split()[-1] if portion.of else ""


def leading_share(text: str) -> WrittenShare | None:
    """The share that a line deals out of something made ("half of the glaze: for the ribs"), None without one."""
    tokens = tokens_of(clean_line(text))
    shares = [*filter(None, (some_of(tokens),)), *find_written_shares(tokens)]
    return next((share for share in shares if share.start <= 1 and share.of), None)
