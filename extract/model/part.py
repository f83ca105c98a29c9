"""A piece of a draft: how it is read and how it is written, lean."""

from __future__ import annotations

from functools import cache
from typing import Any

from pydantic import BaseModel, ConfigDict

_REQUIRED = object()


class Part(BaseModel):
    """A piece of a draft. Fields of later versions and of people's own are kept, not dropped."""

    model_config = ConfigDict(extra="allow", populate_by_name=True, allow_inf_nan=False)

    def lean(self) -> dict[str, Any]:
        """The piece as plain values under the file's own names, without fields that are empty or tell nothing.

        Reading gives the same piece back. Fields of people's own are kept whatever they hold. Whole numbers are
        written without a decimal point.
        """
        kept: dict[str, Any] = {}
        for name, written, default in _fields(type(self)):
            value = getattr(self, name)
            if not _is_plain(value, default):
                kept[written] = _lean(value)
        return {**kept, **(self.model_extra or {})}


@cache
def _fields(part: type[Part]) -> tuple[tuple[str, str, Any], ...]:
    """Each field's name, its name in the file, and the value it has where none is given (``_REQUIRED`` for none)."""
    return tuple(
        (
            name,
            field.alias or name,
            _REQUIRED if field.is_required() else field.get_default(call_default_factory=True),
        )
        for name, field in part.model_fields.items()
    )


def _is_plain(value: Any, default: Any) -> bool:
    """Whether a value is the one its field has anyway, and tells nothing: no words, no figure."""
    tells = isinstance(value, float) or (isinstance(value, str) and value)
    return not tells and default is not _REQUIRED and bool(value == default)


def _lean(value: Any) -> Any:
    if isinstance(value, Part):
        return value.lean()
    if isinstance(value, list):
        return [_lean(each) for each in value]
    return int(value) if isinstance(value, float) and value.is_integer() else value
