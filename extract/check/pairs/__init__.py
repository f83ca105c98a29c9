"""What belongs together: said and written lines, amounts and moments in, pairs of them out.

Own lexicons: by_feel, kitchen_rounding. Tests: ``tests/check/test_measures_compared.py``, ``test_check.py``.
"""
