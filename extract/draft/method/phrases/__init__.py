"""The phrases of a written method: an action and the names of its things in, the parts of a clause in words out.

Own lexicons: verb_wording, short_forms. Tests: ``tests/method/test_wording.py``.
"""
