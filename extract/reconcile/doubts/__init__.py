"""What does not add up: the accounts of a kitchen in, doubts out, each with the words it rests on.

Own lexicon: doubt_cues. Tests: ``tests/reconcile/test_doubts.py``, ``tests/questions/test_ledger_questions.py``.
"""
