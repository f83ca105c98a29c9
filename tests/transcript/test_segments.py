"""JSON segments (RFC 8259), in the shapes that speech recognition gives them."""

from __future__ import annotations

import json

import pytest

from extract.errors import CardwrightError
from extract.transcript import read_transcript

ROWS = [{"start": 1.5, "end": 2.25, "text": " two cups "}, {"start": 2.25, "end": 4, "text": "of rice"}]


@pytest.mark.parametrize(
    "value",
    [
        ROWS,
        {"language": "en", "segments": ROWS},
        {"text": 'a "segments": [ in the words', "segments": ROWS},
        {"chunks": [{"timestamp": [row["start"], row["end"]], "text": row["text"]} for row in ROWS]},
        [
            {"start": "00:00:01.500", "end": "00:00:02,250", "text": "two cups"},
            {"start": "2.25", "end": "4", "text": "of rice"},
        ],
        [
            {"start_ms": 1500, "end_ms": 2250, "text": "two cups"},
            {"start_ms": 2250, "end_ms": 4000, "text": "of rice"},
        ],
        [
            {"start": 1.5, "duration": 0.75, "text": "two cups"},
            {"start": 2.25, "duration": 1.75, "text": "of rice"},
        ],
        {
            "segments": [
                {
                    "words": [
                        {"word": " two", "start": 1.5, "end": 2},
                        {"word": " cups", "start": 2, "end": 2.25},
                    ]
                },
                {
                    "words": [
                        {"word": " of", "start": 2.25, "end": 3},
                        {"word": " rice", "start": 3, "end": 4},
                    ]
                },
            ]
        },
    ],
)
@pytest.mark.parametrize("indent", [None, 2])
def test_shapes(value: object, indent: int | None) -> None:
    transcript = read_transcript(None, json.dumps(value, indent=indent).encode())
    assert transcript.format == "json"
    assert [(cue.start, cue.end, cue.text) for cue in transcript.cues] == [
        (1500, 2250, "two cups"),
        (2250, 4000, "of rice"),
    ]


def test_words_alone_are_gathered_up_to_a_pause_or_another_speaker() -> None:
    words = [("so", 0.0, 0), ("two", 0.3, 0), ("cups", 0.6, 0), ("stir", 3.0, 0), ("yes", 3.4, 1)]
    rows = [{"word": word, "start": at, "end": at + 0.2, "speaker": f"S{who}"} for word, at, who in words]
    cues = read_transcript(None, json.dumps({"words": rows}).encode()).cues
    assert [(cue.start, cue.end, cue.text, cue.speaker) for cue in cues] == [
        (0, 800, "so two cups", "S0"),
        (3000, 3200, "stir", "S0"),
        (3400, 3600, "yes", "S1"),
    ]


@pytest.mark.parametrize(
    ("text", "line", "what"),
    [
        ('[\n{"start": 1, "end": 2, "text": "a"},\n{"start": 2, "end":', 3, "not whole JSON"),
        ('[\n{"start": 1, "end": 2, "text": "a"},\n{"end": 2, "text": "a"}\n]', 3, "has no start"),
        ('[\n{"start": 1, "end": 2, "text": "a"},\n\n{"start": 2, "end": 3}\n]', 4, "has no text"),
        (
            '[\n{"start": 3, "end": 4, "text": "a"},\n{"start": 1, "end": 2, "text": "a"}\n]',
            3,
            "goes backwards",
        ),
        ('[\n{"start": 3, "end": 2, "text": "a"}]', 2, "before it begins"),
        ('[\n{"start": -3, "end": 2, "text": "a"}]', 2, "has no start"),
        ('[{"start": NaN, "end": 2, "text": "a"}]', 1, "no transcript holds"),
        ('{"captions": 3}', 1, "no list of segments"),
        ("[1, 2, 3]", 1, "not a list of segments"),
        ("[" * 100_000, 1, "JSON"),
        ('{"format": "recipe-draft/1", "dishes": []}', 1, "is a recipe draft"),
        ("[]", 1, "no spoken words"),
    ],
)
def test_faults_are_told_with_their_line(text: str, line: int, what: str) -> None:
    with pytest.raises(CardwrightError, match=what) as caught:
        read_transcript(None, text.encode(), "show.json")
    assert caught.value.line == line
