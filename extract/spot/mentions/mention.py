"""A food as it is named once, with the amount that it is given."""

from __future__ import annotations

from dataclasses import dataclass

from extract.spot.spans import Amount, Food


@dataclass(frozen=True, slots=True)
class Mention:
    """A food as it is named once, with the amount that its own words give it."""

    food: Food
    amount: Amount | None = None

    @property
    def start(self) -> int:
        """The first token of the food or of its amount, whichever comes first."""
        return min(self.food.start, self.amount.start) if self.amount else self.food.start

    @property
    def end(self) -> int:
        """One past the last token of the food or of its amount."""
        return max(self.food.end, self.amount.end) if self.amount else self.food.end
