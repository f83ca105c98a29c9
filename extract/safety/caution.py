"""What a caution is."""

from __future__ import annotations

from dataclasses import dataclass

from extract.model import Evidence, Question

QUESTION_KIND = "safety caution"
DEFERENCE = "Your local food code and licensed practice come first."


@dataclass(frozen=True, slots=True)
class Caution:
    """One thing that could hurt an eater: its kind, the food it is about, words for the reader, evidence."""

    kind: str
    about: str
    text: str
    said: tuple[Evidence, ...] = ()

    def as_question(self) -> Question:
        """The caution as a question of the draft, which a reviewer can answer."""
        about = f"{self.kind}: {self.about}" if self.about else self.kind
        text = f"{self.text} {DEFERENCE}"
        return Question(kind=QUESTION_KIND, about=about, text=text, said=list(self.said))
