"""Shares of what was made: words and the names of made things in, ``Share`` spans out (``find.find_shares``).

Own lexicon: share_words. Tests: ``tests/spot/test_shares.py``.
"""
