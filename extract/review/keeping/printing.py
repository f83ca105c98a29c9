"""The text of a draft's file, of which only the dishes that changed are written anew.

It is that of ``RecipeDraft.to_json``, letter by letter; of a long show that takes longer than all else of an edit.
"""

from __future__ import annotations

from extract.json_text import json_text
from extract.model import Dish, RecipeDraft

_PLACE = "the dishes"
_HEAD, _TAIL = '{\n  "dishes": [\n    ', "\n  ]\n}\n"


class Printer:
    """Prints one draft again and again; remembers the text of each dish that was in it the last time."""

    def __init__(self) -> None:
        self._texts: dict[int, tuple[Dish, str]] = {}  # by the identity of the dish, which is kept beside it

    def text(self, draft: RecipeDraft) -> str:
        """The draft as it stands in its file."""
        self._texts = {id(dish): self._known(dish) for dish in draft.dishes}
        texts = [text for _, text in self._texts.values()]
        lean = draft.model_copy(update={"dishes": draft.dishes[:1]}).lean()
        shell = json_text({**lean, "dishes": [_PLACE]})
        place = f'\n  "dishes": ["{_PLACE}"]'
        if not texts or not all(texts) or shell.count(place) != 1:
            return draft.to_json()
        return shell.replace(place, '\n  "dishes": [\n    ' + ",\n    ".join(texts) + "\n  ]")

    def _known(self, dish: Dish) -> tuple[Dish, str]:
        return self._texts.get(id(dish)) or (dish, _dish_text(dish))


def _dish_text(dish: Dish) -> str:
    """The dish as it stands in a file; "" for one so short that its lines depend on what stands around it."""
    text = json_text({"dishes": [dish.lean()]})
    return text[len(_HEAD) : -len(_TAIL)] if text.startswith(_HEAD) and text.endswith(_TAIL) else ""
