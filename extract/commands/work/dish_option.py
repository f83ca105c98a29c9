"""The option by which a command is told which dishes of a show are meant."""

from __future__ import annotations

import click

dish_option = click.option(
    "--dish",
    "dishes",
    multiple=True,
    metavar="NAME",
    help="Only this dish: its title, a part of it, or its number; may be given several times.",
)
