"""One spelling for the words of a talk, however they were typed, each letter knowing where it stood.

Captions come with typographic apostrophes or none, in capitals, with full-width figures, ligatures and entities. The
later stages know one spelling only; what a transcript holds is put into it here, where it becomes words, and nowhere
else. The evidence of a draft is cut from the words as they stood.
"""

from __future__ import annotations

import html
import re
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache, lru_cache

from extract.language.capitals import in_small_letters, is_shouted
from extract.lexicon import read_lexicon

# Letters and marks that stand for plainer ones, one for one.
_MARKS = str.maketrans(
    {
        **dict.fromkeys("’‘ʼʹʻˈ′‛＇´\x91\x92", "'"),
        **dict.fromkeys("“”„‟″\x93\x94", '"'),
        **dict.fromkeys("\u2010\u2011\u2012\u2212", "-"),
        **dict.fromkeys(
            "\u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a", " "
        ),
        **dict.fromkeys("\u202f\u205f\u3000\t\n\r\x0b\x0c\u2028\u2029\x85", " "),
        **dict.fromkeys("\u2044\u2215", "/"),
        **dict.fromkeys("º˚", "°"),
    }
)
# Full-width and half-width forms, ligatures, letters in the styles of mathematics: Unicode's compatibility mapping
# (UAX #15) gives the plain ones. Fractions and degree signs are left, they are read as they are.
_STYLED = re.compile("[\uff01-\uff5e\uffe0-\uffe6\ufb00-\ufb06\U0001d400-\U0001d7ff\u2460-\u2473]+")
_COMBINED = re.compile("[^\\W\\d_][\u0300-\u036f]+")
_UNSEEN = re.compile("[\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2064\ufe0e\ufe0f\ufeff]+")
_ENTITY = re.compile(r"&(?:#\d{1,6}|#[xX][0-9a-fA-F]{1,5}|[A-Za-z]{2,8}\d{0,2});")
_HALF_PAIR = re.compile("[\ud800-\udfff]")


@dataclass(frozen=True, slots=True)
class Spelled:
    """``text`` in the one spelling; ``origin[i]`` is where its letter ``i`` begins in the words as they stood.

    The last of ``origin`` is the length of those words. It is None where every letter stands in its old place.
    """

    text: str
    origin: tuple[int, ...] | None = None

    def place(self, at: int) -> int:
        """Where letter ``at`` stood; behind the last one, the length of the words."""
        return at if self.origin is None else self.origin[at]


def spell(text: str, *, shouted: bool = False, opens: bool = True) -> Spelled:
    """``text`` in the one spelling; ``shouted`` where the whole talk is in capitals, ``opens`` at a sentence's head."""
    spelled = Spelled(text.translate(_MARKS))
    spelled = _edit(spelled, _UNSEEN, lambda found: "")
    spelled = _edit(spelled, _HALF_PAIR, lambda found: "\ufffd")
    spelled = _edit(spelled, _ENTITY, lambda found: html.unescape(found[0]).translate(_MARKS))
    spelled = _edit(spelled, _STYLED, lambda found: unicodedata.normalize("NFKC", found[0]))
    spelled = _edit(spelled, _COMBINED, lambda found: unicodedata.normalize("NFC", found[0]))
    spelled = Spelled(in_small_letters(spelled.text, shouted=shouted, opens=opens), spelled.origin)
    spelled = _with_apostrophes(spelled)
    return _with_units_parted(spelled)


@lru_cache(maxsize=20_000)
def plainly(text: str) -> str:
    """Words of the evidence as the stages read them, for those who look for words in it."""
    return spell(text, shouted=is_shouted([text])).text


def _edit(spelled: Spelled, pattern: re.Pattern[str], new: Callable[[re.Match[str]], str]) -> Spelled:
    """``spelled`` with every match replaced; each new letter stands where its match began."""
    if pattern.search(spelled.text) is None:
        return spelled
    pieces: list[str] = []
    origin: list[int] = []
    before = 0
    for found in pattern.finditer(spelled.text):
        written = new(found)
        origin += [spelled.place(at) for at in range(before, found.start())]
        origin += _spread(spelled, found, len(written))
        pieces += [spelled.text[before : found.start()], written]
        before = found.end()
    origin += [spelled.place(at) for at in range(before, len(spelled.text) + 1)]
    return Spelled("".join([*pieces, spelled.text[before:]]), tuple(origin))


def _spread(spelled: Spelled, found: re.Match[str], length: int) -> list[int]:
    """The places of the ``length`` letters that a match is replaced with: in order, its last one for any more."""
    last = found.end() - 1
    return [spelled.place(min(found.start() + at, last)) for at in range(length)]


@dataclass(frozen=True, slots=True)
class _ShortForm:
    """A short form with its apostrophe, and the words beside which its letters are it, or are not (empty for any)."""

    full: str
    not_after: frozenset[str]
    not_before: frozenset[str]
    after: frozenset[str]
    before: frozenset[str]

    def is_meant(self, left: str, right: str) -> bool:
        """Whether the word between ``left`` and ``right`` ("," for none) is the short form."""
        if left in self.not_after or right in self.not_before:
            return False
        fits = not self.before or right in self.before or ("*ing" in self.before and right.endswith("ing"))
        return fits and (not self.after or left in self.after)


@cache
def _short_forms() -> dict[str, _ShortForm]:
    sides = ("not_after", "not_before", "after", "before")
    rows = read_lexicon("lost_apostrophes", columns=("word", "full", *sides))
    return {row["word"]: _ShortForm(row["full"], *(_listed(row[side]) for side in sides)) for row in rows}


def _listed(cell: str) -> frozenset[str]:
    return frozenset() if cell == "-" else frozenset(cell.split("|"))


@cache
def _lost() -> re.Pattern[str]:
    words = "|".join(sorted(_short_forms(), key=len, reverse=True))
    return re.compile(rf"(?<![\w'])(?:{words})(?![\w'])", re.IGNORECASE)


def _with_apostrophes(spelled: Spelled) -> Spelled:
    """The apostrophe put back into "dont" and its like, where the words beside it leave no other reading."""
    text = spelled.text

    def restored(found: re.Match[str]) -> str:
        word = found[0]
        form = _short_forms()[word.lower()]
        if not form.is_meant(_word_before(text, found.start()), _word_after(text, found.end())):
            return word
        return form.full[:1].upper() + form.full[1:] if word[0].isupper() else form.full

    return _edit(spelled, _lost(), restored)


def _word_before(text: str, at: int) -> str:
    """The word that stands right before ``at``, lower case; "," at a mark or the beginning."""
    found = re.search(r"([\w']+) $", text[max(0, at - 30) : at])
    return found[1].lower() if found else ","


def _word_after(text: str, at: int) -> str:
    found = re.match(r" ([\w']+)", text[at : at + 30])
    return found[1].lower() if found else ","


@cache
def _abbreviated() -> re.Pattern[str]:
    """A figure with a unit of few letters and the full stop that is stuck to it: "300g.", "180C.", "2 tbsp."."""
    rows = read_lexicon("units", columns=("form", "unit", "kind", "times", "note"))
    short = {row["form"] for row in rows if row["kind"] in _MEASURED and len(row["form"]) <= _SHORT}
    units = "|".join(
        re.escape(form) for form in sorted({*short, "f"}, key=len, reverse=True) if form.isascii()
    )
    return re.compile(rf"(?<=\d)(\s?°?(?:{units}))\.(?=$|\s)", re.IGNORECASE)


_MEASURED = ("volume", "mass", "length", "time", "temperature")
_SHORT = 4


def _with_units_parted(spelled: Spelled) -> Spelled:
    """The full stop behind a unit's short form as a word of its own, or gone where the sentence goes on."""
    text = spelled.text

    def parted(found: re.Match[str]) -> str:
        following = text[found.end() :].lstrip()[:1]
        return found[1] if following.islower() or following.isdigit() else f"{found[1]} ."

    return _edit(spelled, _abbreviated(), parted)
