"""The sentences of a step: clauses in; what is printed of them, drawn together, out.

Own lexicons: none. Tests: ``tests/method/test_wording.py``.
"""
