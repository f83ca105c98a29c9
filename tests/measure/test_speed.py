"""What conversion may cost: 50 ms for 60 lines once loaded, 20 ms for the weights, read only when needed."""

from __future__ import annotations

import subprocess
import sys
import time
from collections.abc import Callable

from making import line, make_dish, make_draft

from extract.lexicon import read_lexicon
from extract.measure import weights
from extract.measure.drafts.convert import convert

FOODS = [
    ("plain flour", "cup", ""),
    ("onion", "cup", "chopped"),
    ("butter", "stick", "softened"),
    ("milk", "cup", ""),
    ("chicken thighs", "pound", ""),
    ("walnuts", "cup", "chopped"),
    ("kosher salt", "cup", ""),
    ("ginger", "inch", ""),
    ("cream cheese", "ounce", ""),
    ("parsley", "handful", ""),
]


def best_of(times: int, work: Callable[[], object]) -> float:
    """The shortest of several runs, in milliseconds: what the work costs on a machine that others use too."""

    def once() -> float:
        start = time.perf_counter()
        work()
        return (time.perf_counter() - start) * 1000

    return min(once() for _ in range(times))


def test_a_draft_of_60_lines_is_converted_in_under_50_ms() -> None:
    lines = [line(name, 1.5, unit, preparation=said) for name, unit, said in FOODS for _ in range(6)]
    draft = make_draft(make_dish(*lines))
    assert len(draft.dishes[0].components[0].ingredients) == 60
    convert(draft, "metric", "us")
    assert best_of(5, lambda: convert(draft, "metric", "us")) < 50


def test_the_table_of_weights_is_read_in_under_20_ms() -> None:
    def read() -> None:
        read_lexicon.cache_clear()
        weights._rows.cache_clear()
        weights._rows("densities")

    assert best_of(5, read) < 20


def test_nothing_is_read_and_pint_is_not_imported_until_something_is_converted() -> None:
    program = (
        "import sys\n"
        "import extract.measure.drafts.convert, extract.measure.drafts.scale, extract.measure.kitchen, extract.safety\n"
        "from extract.lexicon import read_lexicon\n"
        "assert 'pint' not in sys.modules\n"
        "assert read_lexicon.cache_info().currsize == 0, read_lexicon.cache_info()\n"
        "from extract.measure.kitchen import print_amount\n"
        "print_amount(1, 2, 'cup', worked_out=True)\n"
        "assert 'pint' not in sys.modules\n"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
