"""Ingredient lines: mentions of foods in; lines out, each with its uses, stand-ins and the part it stands in.

Own lexicon: kind_words. Tests: ``tests/reconcile/test_lines.py``, ``test_components.py``.
"""
