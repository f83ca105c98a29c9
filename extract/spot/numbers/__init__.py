"""Numbers and units: tokens in; a value as an exact fraction, a range, a unit out, with the token it ends at.

Own lexicons: numbers, units; of amount_words the words around a figure. Tests: ``tests/spot/test_numbers.py``,
``tests/cases/numbers.txt`` and ``units.txt``.
"""
