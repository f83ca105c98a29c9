"""The way through as a whole: what any draft holds to, and that the same talk always gives the same draft."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from drafted import SAMPLES, TALKS, drafted
from heard import speech_of, transcript_of
from hypothesis import given
from hypothesis import strategies as st

from extract.model import Evidence, Part, RecipeDraft
from extract.pipeline import draft_speech, draft_transcript
from extract.transcript import Transcript
from extract.transcript.reading import read_transcript

ROOT = Path(__file__).parents[1]
TALK = """Hello and welcome. Today we're going to make a leek and barley soup.
Two tablespoons of oil go in the pan, over a medium heat.
In go four leeks, no, five leeks, chopped.
Give them ten minutes. Then a cup of barley and two litres of stock.
Simmer it for forty minutes, and season it with salt.
That serves six. Thank you for watching."""
DRAFT = """
import sys
from pathlib import Path
from extract.pipeline import draft_transcript
from extract.transcript.reading import read_transcript
sys.stdout.write(str(hash("leek")))
for path in sys.argv[1:]:
    sys.stdout.write("\f" + draft_transcript(read_transcript(Path(path))).to_json())
"""


RUB = """Today we're making barbecue chicken. One whole chicken, cut the backbone out. Now the rub.
In a bowl, two tablespoons of brown sugar, a tablespoon of paprika and a tablespoon of salt. Stir that together.
Three quarters of the rub goes on it, both sides. Roast the chicken for an hour. Then the sauce.
A cup of cider vinegar and half a cup of molasses in the pan, and the rest of the rub goes in there too.
Simmer the sauce for ten minutes."""


def evidence_in(part: object) -> Iterator[Evidence]:
    """Every piece of evidence anywhere in a draft."""
    if isinstance(part, Evidence):
        yield part
    elif isinstance(part, Part):
        for name in type(part).model_fields:
            yield from evidence_in(getattr(part, name))
    elif isinstance(part, list):
        for each in part:
            yield from evidence_in(each)


def test_the_source_is_told() -> None:
    source = draft_transcript(transcript_of(TALK)).source
    assert (source.file, source.sha256, source.cues, source.timed) == ("talk.txt", "00", 6, True)
    assert (source.start, source.end) == (0.0, 24.0)


def test_a_talk_without_cues_is_a_draft_without_dishes() -> None:
    draft = draft_transcript(Transcript("talk.vtt", "00", ()))
    assert (draft.dishes, draft.talk, draft.source.cues) == ([], [], 0)


@pytest.mark.parametrize("text", ["Hello.", "We talk and talk. Nobody cooks.", "?!", "and and and"])
def test_nothing_but_talk_is_a_draft_without_lines(text: str) -> None:
    draft = draft_transcript(transcript_of(text))
    assert [line for dish in draft.dishes for part in dish.components for line in part.ingredients] == []
    assert all(not dish.method for dish in draft.dishes)


def test_drafting_leaves_the_parsed_talk_as_it_was() -> None:
    speech = speech_of(TALK)
    first = draft_speech(speech).to_json()
    assert draft_speech(speech).to_json() == first


@pytest.mark.parametrize("name", SAMPLES)
def test_every_value_of_a_sample_rests_on_words_of_its_transcript(name: str) -> None:
    transcript, draft = read_transcript(TALKS[name]), drafted(name)
    cues = {cue.index: cue for cue in transcript.cues}
    talk = " ".join(cue.text for cue in transcript.cues)
    found = list(evidence_in(draft))
    assert len(found) > 50
    for said in found:
        assert said.text in talk
        assert said.start == cues[said.cue].start / 1000
        assert said.end >= cues[said.cue].end / 1000
        assert said.text.split()[0] in cues[said.cue].text


def test_a_draft_reads_back_as_it_was_written() -> None:
    draft = draft_transcript(transcript_of(TALK))
    assert RecipeDraft.model_validate_json(draft.to_json()) == draft


def test_the_same_talk_gives_the_same_draft_whatever_the_hash_seed() -> None:
    """Drafted in this process, and in another, which sees that its seed is another one."""
    command = [sys.executable, "-c", DRAFT, *(str(TALKS[name]) for name in SAMPLES)]
    environment = {**os.environ, "PYTHONHASHSEED": "1"}
    done = subprocess.run(command, cwd=ROOT, env=environment, check=True, capture_output=True, text=True)
    seeded, *drafts = done.stdout.split("\f")
    assert seeded != str(hash("leek"))
    assert drafts == [drafted(name).to_json() for name in SAMPLES]


WORDS = (
    *("two cups", "flour", "the", "onions", "each", "half of", "sauce", "stir", "bake it", "at 200 degrees"),
    *(
        "for ten minutes",
        "until golden",
        "or butter",
        ".",
        ",",
        "no,",
        "the rest",
        "it serves six",
        "Second dish.",
    ),
)


@given(st.one_of(st.lists(st.sampled_from(WORDS), max_size=25).map(" ".join), st.text(max_size=60)))
def test_any_words_can_be_drafted(text: str) -> None:
    draft = draft_transcript(transcript_of(text))
    assert RecipeDraft.model_validate_json(draft.to_json()) == draft
