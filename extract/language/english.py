"""Whether a talk is English, by its smallest words: the only language that Cardwright reads."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from importlib import import_module
from itertools import islice
from pkgutil import iter_modules

from extract.errors import CardwrightError
from extract.language.spelling import spell
from extract.transcript import Transcript

# Shares of a talk's words that are among the smallest of a language (spaCy's stop words). English talk has about a half
# of them, lists of ingredients a tenth, other languages' talk hardly any; measured on the invented shows.
ENOUGH = 0.25
OTHERS = 0.2
CLEARLY = 1.5  # times as many of another language's as of English
FEWEST = 12  # words by which a language is told
MOST = 5000  # words that are looked at
_WORD = re.compile(r"[^\W\d_]+(?:'[^\W\d_]+)?")
LATIN = 0.5  # of the letters; other scripts are not English whatever the words are


def check_english(transcript: Transcript) -> None:
    """Raise CardwrightError where a talk is in another language; one too short to tell is let pass."""
    language = other_language([cue.text for cue in transcript.cues])
    if language:
        problem = f"this talk is in {language}; Cardwright reads English only"
        raise CardwrightError(problem, path=transcript.file, remedy="give an English transcript")


def other_language(texts: Iterable[str]) -> str:
    """The language of a talk that is not English, "" for English and for what is too short to tell."""
    words = list(islice(_words(texts), MOST))
    script = _other_script(words)
    if script:
        return script
    share = _share(words, "en")
    if len(words) < FEWEST or share >= ENOUGH:
        return ""
    shares = {code: _share(words, code) for code in _codes()}
    best = max(shares, key=lambda code: shares[code], default="")
    if not best or shares[best] < max(OTHERS, CLEARLY * share):
        return ""
    return _name(best)


def _words(texts: Iterable[str]) -> Iterator[str]:
    for text in texts:
        for word in _WORD.findall(spell(text).text.lower()):
            yield word.partition("'")[0]


def _other_script(words: Sequence[str]) -> str:
    """The script of most letters in words, "" for Latin: "Arabic letters"."""
    letters = [letter for word in words for letter in word]
    other = [letter for letter in letters if not unicodedata.name(letter, "LATIN").startswith("LATIN")]
    if len(letters) < FEWEST or len(other) < LATIN * len(letters):
        return ""
    return f"{unicodedata.name(other[0]).split()[0].capitalize()} letters"


def _share(words: Sequence[str], code: str) -> float:
    small = _small_words(code)
    return sum(1 for word in words if word in small) / max(len(words), 1)


@cache
def _small_words(code: str) -> frozenset[str]:
    try:
        return frozenset(import_module(f"spacy.lang.{code}.stop_words").STOP_WORDS)
    except ImportError:
        return frozenset()


def _codes() -> list[str]:
    """The codes of the languages whose small words are known."""
    import spacy.lang

    return sorted(
        found.name for found in iter_modules(spacy.lang.__path__) if found.ispkg and found.name != "en"
    )


def _name(code: str) -> str:
    """The English name of a language: spaCy's classes bear it."""
    from spacy.util import get_lang_class

    return str(get_lang_class(code).__name__)
