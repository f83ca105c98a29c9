"""Hearing one dish: its scene (words, lines, parts, shares) in, ledger events out, in the order said.

Own lexicon: ledger_cues, shared with ``doubts``. Tests: ``tests/reconcile/test_taking.py``, ``tests/passages``.
"""
