"""Whole drafts made larger, smaller or put into other measures: a draft in, another draft out.

Own lexicon: scale_watch. Tests: ``tests/measure/drafts/test_scale.py``, ``test_convert.py``.
"""
