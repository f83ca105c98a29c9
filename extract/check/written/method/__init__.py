"""The written method: a step of text in, its actions with foods, times, heats and shares out.

Own lexicon: written_method. Tests: ``tests/check/written/test_written_recipes.py``.
"""
