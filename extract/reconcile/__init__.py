"""The kitchen ledger: what was put where, made, divided, put by and used up."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from extract.transcript import Transcript


def ledger_text(transcript: Transcript) -> str:
    """The kitchen ledger of a whole transcript as plain text, ending in a newline.

    Raises CardwrightError where no language model is installed.
    """
    from extract.language import load_model, read_speech
    from extract.reconcile import text
    from extract.reconcile.kitchen import reconcile
    from extract.segment.dishes import segment
    from extract.spot.spotted import spot

    spotted = spot(read_speech(transcript, load_model()))
    return text.ledger_text(reconcile(spotted, segment(spotted)), spotted)
