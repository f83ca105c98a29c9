"""The command line as a whole: help that teaches, errors on one line, exit codes."""

from __future__ import annotations

import subprocess
import sys
from importlib.util import find_spec

import click
import pytest
from click.testing import CliRunner

from extract.cli import COMMANDS, cardwright
from extract.errors import CardwrightError

HEAVY = ("spacy", "numpy", "pint", "scipy", "pydantic", "rich", "extract.model")


def command(name: str) -> click.Command:
    found = cardwright.get_command(click.Context(cardwright), name)
    assert found is not None
    return found


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_exists_and_says_in_the_overview_what_its_own_help_says(name: str) -> None:
    place, line = COMMANDS[name]
    assert find_spec(place.partition(":")[0]) is not None
    assert command(name).get_short_help_str(limit=200) == line


@pytest.mark.parametrize("name", COMMANDS)
def test_help_of_every_command_shows_an_example(name: str) -> None:
    result = CliRunner().invoke(cardwright, [name, "--help"])
    assert result.exit_code == 0
    assert f"cardwright {name} " in result.output.partition("Examples:")[2]
    undocumented = [p.name for p in command(name).params if isinstance(p, click.Option) and not p.help]
    assert undocumented == []


def test_overview_names_every_command_and_the_exit_codes() -> None:
    result = CliRunner().invoke(cardwright, ["--help"])
    assert result.exit_code == 0
    assert all(f"  {name} " in result.output for name in COMMANDS)
    assert "Exit codes: 0 done" in result.output
    assert "no\n  advice" in result.output or "no advice" in result.output


@pytest.mark.parametrize("arguments", [[], *([name] for name in COMMANDS)])
def test_help_loads_nothing_heavy(arguments: list[str]) -> None:
    """A user who asks for help does not wait for a language model's libraries."""
    code = (
        "import sys; from extract.cli import cardwright\n"
        f"try: cardwright({[*arguments, '--help']!r})\n"
        f"except SystemExit: print([name for name in {HEAVY!r} if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "[]"


@pytest.mark.parametrize("arguments", [["bake"], ["draft"], ["draft", "--loud", "x"], ["draft", "--out"]])
def test_bad_usage_exits_with_2(arguments: list[str]) -> None:
    result = CliRunner().invoke(cardwright, arguments)
    assert result.exit_code == 2
    assert "Error: " in result.stderr
    assert result.stdout == ""


def test_errors_for_users_are_one_line_and_exit_2(monkeypatch: pytest.MonkeyPatch) -> None:
    @click.command()
    def fail() -> None:
        problem = "the salt\nis missing"
        raise CardwrightError(problem, path="show.vtt", line=3, remedy="add some")

    monkeypatch.setattr(type(cardwright), "get_command", lambda *_: fail)
    result = CliRunner().invoke(cardwright, ["draft"])
    assert result.exit_code == 2
    assert result.stderr == "Error: show.vtt: line 3: the salt is missing (add some)\n"


def test_version_is_the_packages() -> None:
    from extract import __version__

    assert CliRunner().invoke(cardwright, ["--version"]).output.split()[-1] == __version__
