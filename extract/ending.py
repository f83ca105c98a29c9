"""How a call ends: an exit code, and one line on standard error where something was wrong."""

from __future__ import annotations

import os
import sys
import traceback
from collections.abc import Callable, Sequence
from contextlib import suppress

import click

from extract.errors import CardwrightError

BAD_INPUT = 2
FAULT = 70  # EX_SOFTWARE of BSD's sysexits.h
INTERRUPTED = 130  # 128 and SIGINT, as a shell gives it
CLOSED_PIPE = 141  # 128 and SIGPIPE
TRACEBACK = "--traceback"


class ClosedPipe(Exception):
    """Whoever read the output has gone: there is nobody left to tell anything."""


def run_to_the_end(run: Callable[[], object], *, trace: bool) -> int:
    """Call ``run`` and give the exit code of what came of it; all that goes wrong is told in one line.

    ``run`` returns its exit code, or nothing for 0. With ``trace`` a fault of the program shows where it lies.
    """
    try:
        code = run()
        sys.stdout.flush()
        return code if isinstance(code, int) else 0
    except click.exceptions.NoArgsIsHelpError as error:
        error.show()
        return BAD_INPUT
    except click.UsageError as error:
        place = f"{error.ctx.command_path} " if error.ctx is not None else ""
        return _tell(f"{error.format_message()} ({place}--help shows how)", BAD_INPUT)
    except click.ClickException as error:
        return _tell(error.format_message(), BAD_INPUT)
    except CardwrightError as error:
        return _tell(str(error), BAD_INPUT)
    except (click.Abort, KeyboardInterrupt):
        _let_go()
        return INTERRUPTED
    except (ClosedPipe, BrokenPipeError):
        _let_go()
        return CLOSED_PIPE
    except OSError as error:
        _let_go()
        return _tell(f"{error.filename or 'standard output'}: {error.strerror or error}", BAD_INPUT)
    except Exception as error:
        if trace:
            traceback.print_exc()
            return FAULT
        return _tell(f"{fault_words(error)} (put {TRACEBACK} into the command to see where)", FAULT)


def fault_words(error: Exception) -> str:
    """A fault of the program in one line."""
    what = f"{type(error).__name__}: {error}" if str(error) else type(error).__name__
    return f"a fault in this program, please report it: {what}"


def without_traceback(words: Sequence[str]) -> tuple[list[str], bool]:
    """The words of a command line without ``--traceback``, wherever it stands, and whether it was there."""
    end = words.index("--") if "--" in words else len(words)
    kept = [word for at, word in enumerate(words) if at >= end or word != TRACEBACK]
    return kept, len(kept) < len(words)


def _tell(message: str, code: int) -> int:
    line = " ".join(message.split())
    with suppress(OSError):
        click.echo(f"Error: {line}", err=True)
    return code


def _let_go() -> None:
    """Let nothing more be written to a standard output that takes nothing, not even when the program is left."""
    with suppress(OSError, ValueError, AttributeError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
        os.close(nowhere)
