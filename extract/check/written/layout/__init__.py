"""The layout of a written recipe: a file of any form in, its lines as headings, items, steps and text out.

Own lexicon: written_headings. Tests: ``tests/check/written/test_written_layouts.py``.
"""
