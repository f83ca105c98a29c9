"""Names of foods, without any talk: which food a name means, of what kind it is, when two names mean one food.

Takes words, returns rows and answers; needs the lexicons alone, so that every stage may ask it. Own lexicons: foods,
food_synonyms, food_words, not_food, bare_foods, food_modifiers, opposed_words, general_foods, made_words,
pronunciations. Tests: ``tests/spot/test_foods.py``, ``test_made_names.py``, ``test_mending.py``,
``tests/check/test_food_identity.py``.
"""
