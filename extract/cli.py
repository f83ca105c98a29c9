"""The command line: options in, one call, words out.

Exit codes: 0 done; 1 an answer that a script may wait for (differences found, questions open); 2 bad input or
bad usage, told in one line on standard error; 70 a fault of the program, 130 an interruption, 141 a closed pipe.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import partial
from importlib import import_module
from typing import Any

import click

from extract import __version__
from extract.ending import TRACEBACK, ClosedPipe, run_to_the_end, without_traceback

# Each command with where it lives and its line in the overview; its module is imported when it is called.
COMMANDS = {
    "draft": ("extract.commands.draft:draft", "Turn timed transcripts into recipe drafts."),
    "page": ("extract.commands.page:page", "Print the page of a draft as it has been corrected."),
    "questions": (
        "extract.commands.questions:questions",
        "List what the cook left unsaid, most important first.",
    ),
    "answer": ("extract.commands.answer:answer", "Write the answer to a question into the draft."),
    "check": ("extract.commands.check:check", "Hold a written recipe against a draft of what was said."),
    "written": ("extract.commands.written:written", "Show how a written recipe is read."),
    "scale": ("extract.commands.scale:scale", "Make a draft larger or smaller."),
    "convert": ("extract.commands.convert:convert", "Put a draft into other units."),
    "review": ("extract.commands.review:review", "Go through a draft beside its recording, in your browser."),
    "shopping": ("extract.commands.shopping:shopping", "Sum the foods of one or more dishes."),
    "publish": ("extract.commands.publish:publish", "Turn reviewed drafts into what readers get."),
}


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

    def make_context(
        self, info_name: str | None, args: list[str], parent: click.Context | None = None, **extra: Any
    ) -> click.Context:
        with _pipes_told():
            return super().make_context(info_name, args, parent, **extra)

    def invoke(self, ctx: click.Context) -> Any:
        with _pipes_told():
            return super().invoke(ctx)

    def main(
        self, args: Sequence[str] | None = None, *names: Any, standalone_mode: bool = True, **extra: Any
    ) -> Any:
        """Run a command line and leave the program, with the exit code and the line that README.md promises."""
        words, trace = without_traceback(sys.argv[1:] if args is None else list(args))
        whole = partial(super().main, words, *names, standalone_mode=False, **extra)
        return sys.exit(run_to_the_end(whole, trace=trace)) if standalone_mode else whole()


@contextmanager
def _pipes_told() -> Iterator[None]:
    """A closed pipe under a name that click does not take for an error of its own."""
    try:
        yield
    except BrokenPipeError as error:
        raise ClosedPipe from error


@click.group(cls=LazyGroup, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="cardwright")
@click.option(TRACEBACK, is_flag=True, help="Where a fault of the program shows, show where it lies.")
def cardwright(traceback: bool) -> None:
    """Turn the timed transcript of a filmed cooking segment into a written recipe draft.

    \b
    A first draft, to read beside the video:
      cardwright draft show.vtt
    Drafts of a whole folder, as files:
      cardwright draft transcripts/ --out drafts

    A draft is what the cook was heard to say, for a person to review. It is no advice on food safety or
    allergens: check those against labels and your local codes.

    Exit codes: 0 done, 1 an answer to act on (differences, open questions), 2 bad input or usage, 70 a fault
    of the program.
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
