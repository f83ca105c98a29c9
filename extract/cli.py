"""The command line: options in, one call, words out.

Exit codes: 0 done; 1 an answer that a script may wait for (differences found, questions open); 2 bad input or
bad usage, told in one line on standard error.
"""

from __future__ import annotations

import sys
from importlib import import_module
from typing import Any

import click

from extract import __version__
from extract.errors import CardwrightError

# Each command with where it lives and its line in the overview; its module is imported when it is called.
COMMANDS = {
    "draft": ("extract.commands.draft:draft", "Turn timed transcripts into recipe drafts."),
    "questions": (
        "extract.commands.questions:questions",
        "List what the cook left unsaid, most important first.",
    ),
    "check": ("extract.commands.check:check", "Hold a written recipe against a draft of what was said."),
    "written": ("extract.commands.written:written", "Show how a written recipe is read."),
    "scale": ("extract.commands.scale:scale", "Make a draft larger or smaller."),
    "convert": ("extract.commands.convert:convert", "Put a draft into other units."),
    "shopping": ("extract.commands.shopping:shopping", "Sum the foods of one or more dishes."),
    "publish": ("extract.commands.publish:publish", "Turn reviewed drafts into what readers get."),
}


class BadInput(click.ClickException):
    """A CardwrightError on its way to the user: one line, exit code 2."""

    exit_code = 2


class LazyGroup(click.Group):
    """A group that imports a command's module when the command is called, so that ``--help`` is instant."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, name: str) -> click.Command | None:
        if name not in COMMANDS:
            return None
        module, _, attribute = COMMANDS[name][0].partition(":")
        command = getattr(import_module(module), attribute)
        assert isinstance(command, click.Command)
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl([(name, line) for name, (_, line) in COMMANDS.items()])

    def invoke(self, ctx: click.Context) -> Any:
        try:
            return super().invoke(ctx)
        except CardwrightError as error:
            raise BadInput(str(error)) from error


@click.group(cls=LazyGroup, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="cardwright")
def cardwright() -> None:
    """Turn the timed transcript of a filmed cooking segment into a written recipe draft.

    \b
    A first draft, to read beside the video:
      cardwright draft show.vtt
    Drafts of a whole folder, as files:
      cardwright draft transcripts/ --out drafts

    A draft is what the cook was heard to say, for a person to review. It is no advice on food safety or
    allergens: check those against labels and your local codes.

    Exit codes: 0 done, 1 an answer to act on (differences, open questions), 2 bad input or usage.
    """


def main() -> None:
    """The entry point of the ``cardwright`` command."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(
                errors="replace"
            )  # an ASCII terminal shows "?" for a fraction sign, not a fault
    cardwright(prog_name="cardwright")


if __name__ == "__main__":
    main()
