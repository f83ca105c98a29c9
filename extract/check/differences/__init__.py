"""What differs: pairs of said and written things in, findings for the report out; a module a kind of thing.

Own lexicons: none. Tests: ``tests/check/test_check.py``, ``test_mutations.py``, ``test_own_words.py``.
"""
