"""Words of a talk made fit to be printed anywhere."""

from __future__ import annotations

import unicodedata

# Embeddings, overrides and isolates of the Unicode Bidirectional Algorithm (UAX 9) turn what stands behind them too.
_TURNS = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\ufeff")


def clean(text: str) -> str:
    """Text in one line: no control characters, nothing that turns the reading direction of what follows.

    Letters of every script, emoji and the joiners and marks they are spelled with stay as they are.
    """
    kept = (" " if char.isspace() else char for char in text if char.isspace() or not _is_unfit(char))
    return " ".join("".join(kept).split())


def _is_unfit(char: str) -> bool:
    """Whether a character is a control, a lone surrogate, or one that no text may hold (Unicode's noncharacters)."""
    code = ord(char)
    none = code & 0xFFFE == 0xFFFE or 0xFDD0 <= code <= 0xFDEF
    return none or char in _TURNS or unicodedata.category(char) in ("Cc", "Cs")
