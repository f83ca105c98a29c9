"""How long things take: the words of a talk in, ``Duration`` spans out (``find.find_durations``), in minutes.

Own lexicon: time_words. Tests: ``tests/spot/test_durations.py``, ``tests/cases/durations.txt``.
"""
