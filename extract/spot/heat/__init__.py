"""Heat: the words of a talk in, ``HeatSetting`` spans out (``find.find_heat``) with degrees, mark or level.

Own lexicons: heat_levels, heat_words; the scales are held against oven. Tests: ``tests/spot/test_heat.py``,
``tests/cases/heat.txt``.
"""
