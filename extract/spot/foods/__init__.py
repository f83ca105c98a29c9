"""Foods in the words of a talk: tokens in, ``Food`` spans out, misheard ones mended.

Own lexicon: mishearings. Tests: ``tests/spot/test_foods.py``, ``test_mending.py``, ``tests/cases/foods.txt`` and
``mending.txt``.
"""
