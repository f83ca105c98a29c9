"""Foods with their amounts: spans of both and the reader's scores in, a ``Mention`` for every food out.

Own lexicons: own_units, uncounted_kinds. Tests: ``tests/reconcile/test_lines.py``, which reads mentions as lines.
"""
