"""What the first stages make of a few invented words; each text is parsed once a session."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from plainly_read import plain_reading

from extract.language import Speech, load_model, read_speech
from extract.model import RecipeDraft
from extract.pipeline import draft_speech
from extract.reconcile.lines.lines import Line, build_lines, resolve_again
from extract.reconcile.lines.uses import Use, judge
from extract.segment.dishes import Segments, segment
from extract.spot.mentions.mention import Mention
from extract.spot.spans import Amount
from extract.spot.spotted import Spotted, spot
from extract.transcript import Transcript
from extract.transcript.cues import Cue

CUE_LENGTH = 4000


def transcript_of(text: str) -> Transcript:
    """A transcript with a cue of four seconds for each line of ``text``."""
    lines = [line.strip() for line in text.splitlines() if line.strip()]
    cues = [Cue(i, CUE_LENGTH * i, CUE_LENGTH * (i + 1), words, line=i + 1) for i, words in enumerate(lines)]
    return Transcript("talk.txt", "00", tuple(cues))


@cache
def speech_of(text: str) -> Speech:
    return read_speech(transcript_of(text), load_model())


@cache
def spotted_in(text: str) -> Spotted:
    """What is spotted where the words are read plainly: exact rules do not hang on what was learned."""
    speech = speech_of(text)
    return spot(speech, plain_reading(speech)) if len(speech.doc) else spot(speech)


@cache
def segments_of(text: str) -> Segments:
    return segment(spotted_in(text))


def drafted(text: str) -> RecipeDraft:
    """The draft of ``text`` read plainly."""
    speech = speech_of(text)
    return draft_speech(speech, plain_reading(speech))


def figures(low: Fraction | None, high: Fraction | None) -> str:
    """ "1/2", "2-3", "?" where there are none."""
    if low is None or high is None:
        return "?"
    return str(low) if low == high else f"{low}-{high}"


def amount_words(amount: Amount | None) -> str:
    """ "2 cup", "3" for a count, "some" for words without figures, "same" for "the same again"; "" for none.

    What a correction replaced follows in brackets: "3 cup (not 2 cup)".
    """
    if amount is None:
        return ""
    if amount.low is None:
        return "same" if amount.again else "some"
    words = f"{figures(amount.low, amount.high)} {amount.unit}".strip()
    if amount.size is not None:
        low, high, unit = amount.size
        words += f" of {figures(low, high)} {unit}"
    return words + "".join(f" (not {amount_words(slip)})" for slip in amount.slips)


def mention_words(mention: Mention) -> str:
    """The amount and the food: "2 cup flour"."""
    return f"{amount_words(mention.amount)} {mention.food.name}".strip()


@cache
def uses_in(text: str) -> tuple[Use, ...]:
    """What the words say of each food named in ``text``."""
    spotted = spotted_in(text)
    return tuple(resolve_again(judge(spotted.speech.doc, spotted.reading, spotted.mentions)))


def lines_in(text: str) -> list[str]:
    """The lines of ``text`` as one dish: "1/2 cup cream or yogurt, optional"."""
    return [line_words(line) for line in build_lines(uses_in(text))]


def line_words(line: Line) -> str:
    words = " or ".join([f"{amount_words(line.amount)} {line.name}".strip(), *line.alternatives])
    return words + (", optional" if line.optional else "")
