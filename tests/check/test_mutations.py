"""One change to a published recipe is found, and nothing else; the unchanged page has no difference."""

from __future__ import annotations

from functools import cache

import pytest
from made_drafts import ALL, Made
from mutations import Mutation, mutations

from extract.check.checking import check
from extract.check.report import Difference
from extract.check.written import read_written_text
from extract.publish.markdown import page

CASES = [(made, mutation) for made in ALL for mutation in mutations(made)]


def differences(made: Made, text: str) -> list[Difference]:
    return reported(made.name, text)


@cache
def reported(name: str, text: str) -> list[Difference]:
    """What a check of a page reports; each page is asked for by two tests."""
    made = next(made for made in ALL if made.name == name)
    return check(made.draft, read_written_text(text))[0].differences


def is_found(mutation: Mutation, found: list[Difference]) -> bool:
    """Whether a reported difference is of the kind and, where that is told, about the subject."""
    return any(
        difference.kind in mutation.kinds and _is_about(mutation.about, difference) for difference in found
    )


def _is_about(subject: str, difference: Difference) -> bool:
    """Foods are named shortly in a report: "soft butter" as "butter"."""
    about = difference.about.lower()
    return subject.lower() in f"{about} {difference.said}".lower() or about in subject.lower()


def strangers(mutation: Mutation, found: list[Difference]) -> list[Difference]:
    """Reported differences of another kind than the change, those of mere wording aside."""
    return [
        difference
        for difference in found
        if difference.weight != "wording" and difference.kind not in mutation.kinds
    ]


@pytest.mark.parametrize("made", ALL, ids=[made.name for made in ALL])
def test_an_unchanged_page_has_no_difference(made: Made) -> None:
    assert differences(made, page(made.draft)) == []


def test_there_is_a_change_of_every_kind() -> None:
    kinds = {kind for _, mutation in CASES for kind in mutation.kinds}
    assert kinds == {
        *("amount", "unit", "missing", "extra", "alternative", "optional", "portion"),
        *("temperature", "time", "order", "yield", "batch", "component"),
    }
    assert len(CASES) > 500


def test_at_least_98_in_100_changes_are_found() -> None:
    missed = [
        (made.name, mutation.what)
        for made, mutation in CASES
        if not is_found(mutation, differences(made, mutation.text))
    ]
    assert len(missed) <= 0.02 * len(CASES), missed


def test_a_change_brings_no_report_of_another_kind() -> None:
    """At most one page in a hundred has a report that its one change does not explain."""
    others = [
        (made.name, mutation.what, [(other.kind, other.about) for other in found])
        for made, mutation in CASES
        if (found := strangers(mutation, differences(made, mutation.text)))
    ]
    assert len(others) <= 0.01 * len(CASES), others
