"""One spoken action, as the readers of actions build it and the later stages read it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from extract.spot.spans import Duration, HeatSetting
    from extract.spot.verbs.ground import Phrase
    from extract.spot.verbs.mood import Mood


@dataclass(frozen=True, slots=True)
class ActionSpan:
    """One spoken action; all figures are token indices, ends exclusive.

    ``verb`` is the cook's own as a lemma with its particle ("set aside"); ``at`` its token, or the first word
    of the evidence where the action is ``implied`` ("then two cups of flour" is an "add"). ``utterance`` is
    the sentence it was said in and ``weight`` the evidence (log odds) that this sentence is instruction.
    ``group`` is the kind of work, as in ``lexicons/words/verbs.tsv``. ``later`` are the words of a sentence after it
    that tell its time: "Then you knead it. Ten minutes." ``doing`` is how likely the words from its verb on are
    something done rather than a look, a reason or a tale, ``ahead`` how likely they are of what was done before the
    recording.
    """

    verb: str
    at: int
    start: int
    end: int
    utterance: tuple[int, int]
    group: str = ""
    objects: tuple[Phrase, ...] = ()
    place: tuple[Phrase, ...] = ()
    with_: tuple[Phrase, ...] = ()
    until: tuple[int, int] | None = None
    duration: Duration | None = None
    heat: HeatSetting | None = None
    mood: Mood = "order"
    negated: bool = False
    supposed: bool = False
    implied: bool = False
    weight: float = 0.0
    doing: float = 1.0
    ahead: float = 1.0
    later: tuple[int, int] | None = None
