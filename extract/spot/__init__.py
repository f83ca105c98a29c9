"""Exact values of what is said, as spans of tokens: a room a question, each with ``find.py`` as its door.

Takes a ``Speech`` and the reader's ``Reading`` of it; ``spotted.spot`` returns all that was found as one ``Spotted``.
Rooms stand on one another in this order: ``numbers``, ``heat``, ``times``, ``verbs``, ``names``, ``foods``,
``amounts``, ``counts``, ``shares``, ``mentions``, ``actions``. ``spans`` and ``words`` lie under all of them.
Held by ``tests/spot`` and ``tests/cases``.
"""
