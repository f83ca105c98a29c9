"""What a dish makes: the words of a talk in, yields and batches out (``find.find_counts``).

Own lexicons: count_words, batches. Tests: ``tests/spot/test_counts.py``, ``tests/cases/counts.txt`` and
``passing_counts.txt``.
"""
