"""inflect, an outside reference for spelled numbers and plurals, without the checks of its own types.

To put those into its code takes seconds at import, in every worker.
"""

from unittest.mock import patch

with patch("typeguard.typechecked", lambda unchecked: unchecked):
    from inflect import engine

SPELL = engine()
