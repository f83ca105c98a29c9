"""README and DEVELOPERS name what there is, and what they show can be run."""

from __future__ import annotations

import ast
import os
import re
import shlex
import shutil
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from importlib.metadata import packages_distributions
from pathlib import Path

import click
import pytest
from click.testing import CliRunner
from lexicon_table import GUIDE, tables

from extract.cli import COMMANDS, cardwright

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
PAGES = sorted(
    [
        *ROOT.glob("*.md"),
        *(path for place in ("extract", "lexicons", "tests") for path in (ROOT / place).rglob("README.md")),
    ]
)
FENCED = re.findall(r"^```sh\n(.*?)^```", README, re.MULTILINE | re.DOTALL)
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]


def command(name: str) -> click.Command:
    found = cardwright.get_command(click.Context(cardwright), name)
    assert found is not None
    return found


def options(name: str) -> Iterator[str]:
    for parameter in command(name).params:
        if isinstance(parameter, click.Option):
            yield from (option for option in parameter.opts if option.startswith("--"))


def named(word: str, text: str) -> bool:
    """Whether ``word`` stands in ``text`` as code."""
    return re.search(rf"(?<![\w-]){re.escape(word)}(?![\w-])", text) is not None


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_and_option_is_described(name: str) -> None:
    section = re.search(rf"^### `cardwright {name}.*?(?=^##)", README, re.MULTILINE | re.DOTALL)
    assert section is not None
    assert [option for option in options(name) if not named(option, section[0])] == []


def test_every_lexicon_is_described_as_it_describes_itself() -> None:
    """After a change to the lexicons: ``python tests/lexicon_table.py``."""
    assert GUIDE.read_text(encoding="utf-8").endswith(tables())


def test_every_dependency_is_justified() -> None:
    """Its reason stands beside it in pyproject.toml."""
    lines = (ROOT / "pyproject.toml").read_text(encoding="utf-8").splitlines()
    reasons = dict(re.findall(r'^    "([\w.-]+)[^"]*",  # (\w.+)$', "\n".join(lines), re.MULTILINE))
    assert (asked() | asked("test")) - {canonical(name) for name in reasons} == set()


def test_the_guide_is_read_in_an_hour() -> None:
    assert len(DEVELOPERS) <= 9000


def imported_libraries(folder: Path) -> set[str]:
    """The distributions that the code in ``folder`` imports, the standard library and our own left out."""
    paths = (path for path in folder.rglob("*.py") if "training" not in path.parts)  # an extra of its own
    trees = [ast.parse(path.read_text(encoding="utf-8")) for path in paths]
    modules = set()
    for node in (node for tree in trees for node in ast.walk(tree)):
        if isinstance(node, ast.ImportFrom) and node.module and not node.level:
            modules.add(node.module.partition(".")[0])
        elif isinstance(node, ast.Import):
            modules |= {alias.name.partition(".")[0] for alias in node.names}
    own = {path.stem for path in folder.rglob("*.py")} | {"extract"}
    owners = packages_distributions()
    strange = modules - set(sys.stdlib_module_names) - own
    return {canonical(owners.get(module, [module])[0]) for module in strange}


def asked(extra: str = "") -> set[str]:
    wanted = PROJECT["optional-dependencies"][extra] if extra else PROJECT["dependencies"]
    return {canonical(re.match(r"[\w.-]+", one)[0]) for one in wanted}  # type: ignore[index]


def test_dependencies_are_those_that_are_imported() -> None:
    """No library is asked for in vain, and none is used unasked."""
    sources = "".join(path.read_text(encoding="utf-8") for path in (ROOT / "extract").rglob("*.py"))
    by_name = {
        name for name in asked() if f'"{name.replace("-", "_")}"' in sources
    }  # the model, a dictionary
    assert imported_libraries(ROOT / "extract") | by_name == asked()


def test_tests_import_only_what_their_extra_asks_for() -> None:
    tools = {"mypy", "ruff", "hatchling", "pytest-cov", "pytest-xdist"}  # run, not imported
    used = imported_libraries(ROOT / "tests") - asked("train")  # what learns is tested where it is installed
    assert used - asked() - asked("test") == set()
    assert asked("test") - used - tools == set()


def canonical(name: str) -> str:
    return re.sub(r"[-_.]+", "-", name).lower()


def shown_commands() -> list[list[str]]:
    lines = [line for block in FENCED for line in block.splitlines()]
    pieces = [piece.strip() for line in lines for piece in re.split(r" #| > ", line)[0].split("|")]
    return [shlex.split(piece)[1:] for piece in pieces if piece.startswith("cardwright ")]


@pytest.mark.parametrize("words", shown_commands(), ids=" ".join)
def test_commands_shown_in_the_readme_are_understood(words: list[str]) -> None:
    """Each parses as its command asks, without being run."""
    found = command(words[0])
    assert found.make_context(words[0], words[1:]).params


# A line that a shell has no part in but to write what is printed into a file.
SIMPLE = re.compile(r"cardwright [^|*<>$]*(?:> [\w./-]+)?")


def run_here(line: str) -> tuple[int, str]:
    """A simple line in this process: its exit code, and what it said on standard error."""
    words = shlex.split(line, comments=True)[1:]
    target = Path(words[-1]) if words[-2:-1] == [">"] else None
    done = CliRunner().invoke(cardwright, words[:-2] if target else words)
    if target:
        target.write_text(done.stdout, encoding="utf-8")
    return done.exit_code, done.stderr


def run_in_a_shell(line: str) -> tuple[int, str]:
    path = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    words = ["bash", "-o", "pipefail", "-c", line]
    done = subprocess.run(
        words, env={**os.environ, "PATH": path}, capture_output=True, text=True, check=False
    )
    return done.returncode, done.stderr


def test_the_readmes_examples_run_as_they_stand_one_after_another(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """In a folder with the samples: each line is done, or gives an answer to act on."""
    shutil.copytree(ROOT / "samples", tmp_path / "samples")
    monkeypatch.chdir(tmp_path)
    lines = [line for block in FENCED[1:] for line in block.splitlines() if line.strip()]
    assert len(lines) > len(COMMANDS)
    for line in lines:
        code, errors = run_here(line) if SIMPLE.fullmatch(line) else run_in_a_shell(line)
        answers = (0, 1) if re.search(r"cardwright (check|questions)", line) else (0,)
        assert code in answers, (line, errors)
        assert "Error" not in errors, line
    assert {"supper.vtt", "shoot.csv", "drafts", "check.html"} <= {path.name for path in tmp_path.iterdir()}
    assert list((tmp_path / "published").glob("*gingerbread*.html"))


def test_readme_shows_every_command_at_work() -> None:
    assert {words[0] for words in shown_commands()} == set(COMMANDS)


def test_first_two_commands_are_single_lines() -> None:
    """.ci/run takes them from here, word for word."""
    first = [line for line in FENCED[0].splitlines() if line]
    assert len(first) == 2
    assert all(line.startswith("python3 -m venv .venv && ") for line in first)
    assert "cardwright draft samples/" in first[0]
    assert first[1].endswith("python -m pytest")


def test_readme_begins_with_the_job_and_shows_the_cautions() -> None:
    title, job = README.split("\n\n")[:2]
    assert title == "# Cardwright"
    assert len(job) > 300
    assert "allergen" in README
    assert "local" in README
    assert "not advice" in README


@pytest.mark.parametrize("page", PAGES, ids=lambda page: str(page.relative_to(ROOT)))
def test_links_and_paths_lead_somewhere(page: Path) -> None:
    text = page.read_text(encoding="utf-8")
    links = [link for link in re.findall(r"\]\(([^)#]+)\)", text) if "://" not in link]
    paths = re.findall(r"`((?:extract|lexicons|samples|tests)/[\w./-]+)`", text)
    assert [link for link in links if not (page.parent / link).exists()] == []
    assert [path for path in paths if not (ROOT / path).exists()] == []
