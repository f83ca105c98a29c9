"""Imports go one way through the stages, and nothing heavy is imported before it is needed."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from collections.abc import Iterator
from functools import cache
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "extract"
# Each may import what stands before it. The middle is the way of a transcript to its draft.
ORDER = (
    "errors",
    "lexicon",
    "writing",
    "json_text",
    "model",
    "draft_faults",
    "drafts",
    "transcript",
    "language",
    "reader",
    "spot",
    "segment",
    "measure",
    "reconcile",
    "safety",
    "draft",
    "publish",
    "check",
    "answers",
    "pipeline",
    "review",
    "ending",
    "commands",
    "cli",
)
HEAVY = {"spacy", "pint", "scipy", "rich", "uvicorn", "onnxruntime", "tokenizers"}
# Training reads talks with the later stages that the reader itself stands below; it is no part of the wheel.
TRAINING = "extract.reader.training"
MODULES = sorted(PACKAGE.rglob("*.py"))


def name_of(path: Path) -> str:
    return ".".join(path.relative_to(PACKAGE.parent).with_suffix("").parts).removesuffix(".__init__")


@cache
def tree_of(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


@cache
def named_in(path: Path) -> frozenset[str]:
    """What a module imports anywhere: at its import, in functions, for type checkers alone."""
    return frozenset(imported(ast.walk(tree_of(path))))


def imported(nodes: Iterator[ast.AST]) -> Iterator[str]:
    for node in nodes:
        if isinstance(node, ast.ImportFrom) and node.module and not node.level:
            yield node.module
            yield from (f"{node.module}.{alias.name}" for alias in node.names)
        elif isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)


def at_import(tree: ast.AST) -> Iterator[ast.AST]:
    """What runs when a module is imported: nothing inside functions, nothing for type checkers alone."""
    for node in ast.iter_child_nodes(tree):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda):
            continue
        if isinstance(node, ast.If) and "TYPE_CHECKING" in ast.unparse(node.test):
            continue
        yield node
        yield from at_import(node)


def stage_of(module: str) -> str:
    parts = module.split(".")
    return parts[1] if len(parts) > 1 else ""


def test_every_stage_has_its_place() -> None:
    assert {stage_of(name_of(path)) for path in MODULES} - {""} == set(ORDER)


def reached_back(path: Path) -> set[str]:
    """The stages that a module names although they come after its own."""
    name = name_of(path)
    own = "segment" if name.startswith(TRAINING) else stage_of(name)
    earlier = set(ORDER[: ORDER.index(own) + 1]) if own else set()
    stages = {stage_of(module) for module in named_in(path) if module.startswith("extract.")}
    return stages - earlier - {"__version__"}


@pytest.mark.parametrize("stage", ["", *ORDER])
def test_no_stage_reaches_back(stage: str) -> None:
    found = {name_of(path): reached_back(path) for path in MODULES if stage_of(name_of(path)) == stage}
    assert found
    assert {name: stages for name, stages in found.items() if stages} == {}


def imports_of(path: Path) -> set[str]:
    """The modules of the package that a module names."""
    own = name_of(path)
    return {name for name in named_in(path) & NAMES if name != own and not own.startswith(f"{name}.")}


NAMES = {name_of(path) for path in MODULES}
GRAPH = {name_of(path): imports_of(path) for path in MODULES if not name_of(path).startswith(TRAINING)}
FOLDERS = sorted({name_of(path.parent / "__init__.py") for path in MODULES} - {TRAINING})
A_DOZEN = 12
LONGEST = 300  # lines of a module


def test_no_module_imports_itself_in_a_circle() -> None:
    TopologicalSorter(GRAPH).prepare()  # raises CycleError, with the circle


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder or "extract")
def test_no_rooms_lead_to_one_another_in_a_circle(folder: str) -> None:
    """The rooms of a folder are its sub-folders; a module beside them is a room by itself."""
    rooms: dict[str, set[str]] = {}
    for name, others in GRAPH.items():
        room = room_of(name, folder)
        if room:
            rooms.setdefault(room, set()).update({room_of(other, folder) for other in others} - {room, ""})
    TopologicalSorter(rooms).prepare()


def room_of(name: str, folder: str) -> str:
    """The room of ``folder`` that a module is in, "" where it stands outside."""
    return name[len(folder) + 1 :].partition(".")[0] if name.startswith(f"{folder}.") else ""


@pytest.mark.parametrize("folder", FOLDERS)
def test_a_folder_holds_no_more_than_a_dozen_modules_and_says_what_it_is(folder: str) -> None:
    place = PACKAGE.parent.joinpath(*folder.split("."))
    assert len(list(place.glob("*.py"))) <= A_DOZEN
    door = ast.get_docstring(tree_of(place / "__init__.py"))
    assert door
    paths = re.findall(r"``(tests/[\w./-]+)``", door)
    assert [path for path in paths if not (PACKAGE.parent / path).exists()] == []


def test_no_module_is_longer_than_can_be_read_at_a_sitting() -> None:
    long = {name_of(path) for path in MODULES if len(path.read_text(encoding="utf-8").splitlines()) > LONGEST}
    assert {name for name in long if not name.startswith(TRAINING)} == set()


@pytest.mark.parametrize("stage", ["", *ORDER])
def test_heavy_libraries_are_imported_where_they_are_used(stage: str) -> None:
    found = {
        name: {module.partition(".")[0] for module in imported(at_import(tree_of(path)))} & HEAVY
        for path in MODULES
        if stage_of(name := name_of(path)) == stage and not name.startswith(TRAINING)
    }
    assert {name: heavy for name, heavy in found.items() if heavy} == {}


def test_readers_load_no_language_library() -> None:
    code = "import sys, extract.transcript; print(sorted({'spacy', 'numpy', 'pydantic'} & set(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout == "[]\n"
