"""``cardwright shopping``: what to buy for one dish or many."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from extract.commands.work.dish_option import dish_option

if TYPE_CHECKING:
    from extract.measure.shopping.shopping import Item, Total


@click.command()
@click.argument("drafts", nargs=-1, required=True, type=click.Path(path_type=Path), metavar="DRAFT...")
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json"]),
    default="text",
    show_default=True,
    help="For reading, or for another program.",
)
@dish_option
def shopping(drafts: tuple[Path, ...], form: str, dishes: tuple[str, ...]) -> None:
    """Sum the foods of one or more dishes.

    The same food is one line however it was named, a lemon for its juice and its zest once. Amounts are
    summed as they were said; a weight in square brackets is worked out from several units, where the weight
    of the food is known in each.

    \b
    Examples:
      cardwright shopping show.draft.json
      cardwright shopping monday.draft.json friday.draft.json --format json
    """
    import json

    from extract.commands.work.printing import print_lines
    from extract.drafts import load_draft
    from extract.measure.shopping.shopping import shopping_list

    items = shopping_list([load_draft(path) for path in drafts], dishes)
    if form == "json":
        click.echo(json.dumps([_plain(item) for item in items], ensure_ascii=False, indent=2))
        return
    print_lines(_lines(items))


def _lines(items: list[Item]) -> list[str]:
    """The list by aisle, several dishes named behind each food that not all of them take."""
    every = {dish for item in items for dish in item.dishes}
    lines: list[str] = []
    aisle = ""
    for item in items:
        if item.aisle != aisle:
            aisle = item.aisle
            lines += ["", f"{aisle}"] if lines else [aisle]
        some = "" if set(item.dishes) == every else f" — {', '.join(item.dishes)}"
        lines.append(f"  {item}{some}")
    return lines or ["Nothing to buy."]


def _plain(item: Item) -> dict[str, Any]:
    return {
        "name": item.name,
        "aisle": item.aisle,
        "amounts": [_figures(total) for total in (*item.said, *item.apart)],
        "together": _figures(item.together) if item.together else None,
        "unmeasured": item.unmeasured,
        "optional": item.optional,
        "alternatives": list(item.alternatives),
        "dishes": list(item.dishes),
        "text": str(item),
    }


def _figures(total: Total) -> dict[str, Any]:
    size = total.size and dict(zip(("low", "high", "unit"), total.size, strict=True))
    return {"low": float(total.low), "high": float(total.high), "unit": total.unit, "size": size}
