"""What is published of the shared talks, read again and held against their drafts.

A few talks, spread over all, in a run of the tests; ``PUBLISHED=1000 python -m pytest
tests/publish/test_shared_published.py -n 0`` takes all of them, in every form and size.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from publishing import FORMS, SIZES, disagreements

from extract.pipeline import draft_speech
from extract.reader.training.form import read_annotated
from extract.reader.training.titles import speech_of

SHARED = Path(__file__).resolve().parents[3] / "shared" / "talks"
MANY = int(os.environ.get("PUBLISHED", "0"))
FEW = 4


def _some_talks() -> list[Path]:
    talks = sorted(SHARED.glob("*/*.talk"))
    return talks[:: max(1, len(talks) // (MANY or FEW))]


@pytest.mark.skipif(not SHARED.is_dir(), reason="the shared talks are not beside this checkout")
@pytest.mark.parametrize("talk", _some_talks(), ids=lambda path: path.stem)
def test_what_is_published_of_a_shared_talk_agrees_with_its_draft(talk: Path, tmp_path: Path) -> None:
    speech, _ = speech_of(read_annotated(talk), raw=False)
    found = draft_speech(speech)
    sizes = SIZES if MANY else {"as said": SIZES["as said"], "triple": SIZES["triple"]}
    forms = FORMS if MANY else ("page", "text")
    wrong = {size: told for size in sizes if (told := disagreements(SIZES[size](found), forms, tmp_path))}
    assert wrong == {}
