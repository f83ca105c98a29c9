"""Cutting a written line into numbers, words and marks, with vulgar fractions spelt out."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable

_TOKEN = re.compile(
    r"\d+/\d+"  # 1/2
    r"|\d{1,3}(?:,\d{3})+(?![\d,])(?:\.\d+)?"  # 1,000
    r"|\d*[.,]\d+|\d+"  # .5, 0,5, 12
    r"|[^\W\d_]+(?:['’.&-][^\W\d_]+)*"  # all-purpose, confectioner's, half-and-half
    r"|\S"
)
_SLASHES = dict.fromkeys(map(ord, "⁄∕"), "/")
_DASHES = dict.fromkeys(map(ord, "‐‑‒–—−"), "-")
_QUOTES = str.maketrans({"’": "'", "‘": "'", "“": '"', "”": '"', "\u00a0": " ", "×": " x "})


def plain(text: str) -> str:
    """The text with one form for each dash, quote and fraction: "2½" becomes "2 1/2".

    The compatibility decompositions of the vulgar fractions are Unicode's own (UnicodeData.txt, field 5).
    """
    return "".join(_spelt(char) for char in text).translate(_SLASHES | _DASHES).translate(_QUOTES)


def _spelt(char: str) -> str:
    if char.isascii() or not unicodedata.decomposition(char).startswith("<fraction>"):
        return char
    digits = unicodedata.normalize("NFKD", char)
    return f" {digits} " if digits[-1].isdigit() else char


def tokens_of(text: str) -> list[str]:
    """The tokens of one line, case kept: numbers, fractions, words, single marks."""
    return _TOKEN.findall(plain(text))


def joined(tokens: Iterable[str]) -> str:
    """Tokens as running text: no blank before a closing mark or inside brackets and slashes."""
    text = " ".join(tokens)
    text = re.sub(r"\s+([,.;:!?)\]%])", r"\1", text)
    text = re.sub(r"([(\[])\s+", r"\1", text)
    text = re.sub(r"\s*°\s*(?=[CFcf]\b)", "°", text)
    text = re.sub(r"\s*/\s*", "/", text)
    return re.sub(r"(?<=\d)\s*-\s*(?=\w)", "-", text).strip()
