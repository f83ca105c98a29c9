"""What a caution is."""

from __future__ import annotations

from dataclasses import dataclass

from extract.model import Evidence, Question

QUESTION_KIND = "safety caution"
DEFERENCE = "Your local food code and licensed practice come first."


@dataclass(frozen=True, slots=True)
class Caution:
    """One thing that could hurt an eater: its kind, the food it is about, words for the reader, evidence.

    ``short``: two or three words that stand at the line or step. ``foods``: the lines it stands at, by name; without
    any it stands at the step with its evidence. ``ask``: what the cook has to be asked, "" where a caution will do.
    """

    kind: str
    about: str
    text: str
    said: tuple[Evidence, ...] = ()
    short: str = ""
    foods: tuple[str, ...] = ()
    ask: str = ""

    def as_question(self) -> Question:
        """The caution as a question of the draft, which a reviewer can answer."""
        return self._question(f"{self.text} {DEFERENCE}")

    def asked(self) -> Question:
        """What the cook has to be asked, as a question of the draft."""
        return self._question(self.ask)

    def _question(self, text: str) -> Question:
        about = f"{self.kind}: {self.about}" if self.about else self.kind
        return Question(kind=QUESTION_KIND, about=about, text=text, said=list(self.said))
