"""Shopping: the lines of dishes in, one list by aisle out.

Own lexicons: aisles, not_bought. Tests: ``tests/measure/drafts/test_shopping.py``.
"""
