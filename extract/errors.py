"""The one family of errors that a user is shown, each as a single line."""

from __future__ import annotations

from pathlib import Path


class CardwrightError(Exception):
    """Bad input, said in one line: which file, where in it, what is wrong and what to do.

    ``line`` is 1-based. The command line prints ``str(error)`` and exits with code 2.
    """

    def __init__(
        self, problem: str, *, path: str | Path | None = None, line: int | None = None, remedy: str = ""
    ) -> None:
        self.problem = problem
        self.path = None if path is None else str(path)
        self.line = line
        self.remedy = remedy
        super().__init__(problem)

    def __str__(self) -> str:
        place = "" if self.path is None else f"{self.path}: "
        if self.line is not None:
            place += f"line {self.line}: "
        remedy = f" ({self.remedy})" if self.remedy else ""
        return " ".join(f"{place}{self.problem}{remedy}".split())
