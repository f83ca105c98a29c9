"""Amounts of food: the words of a talk in, ``Amount`` spans out (``find.find_amounts``), slips and sizes with them.

Own lexicons: amount_words, unit_steps. Tests: ``tests/spot/test_amounts.py``, ``test_amounts_beside_quantulum3.py``,
``tests/cases/amounts.txt``.
"""
