"""What the cook does: a parsed talk and all that was spotted in it in, ``ActionSpan`` out (``find.find_actions``).

Own lexicons: none; the words are those of ``verbs``. Tests: ``tests/spot/test_actions.py``.
"""
