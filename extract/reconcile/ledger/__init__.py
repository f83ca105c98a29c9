"""The accounts: events in; what each made thing holds, what was taken from it, what is left out, in exact ranges.

Own lexicons: none; sizes are those of volume_units and mass_units, shares those of share_words. Tests:
``tests/reconcile/test_ledger.py``, ``test_ledger_properties.py``, ``test_quantities.py``.
"""
