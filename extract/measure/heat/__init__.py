"""Oven scales: a figure of heat in, the same on another scale out, and which scale a bare figure is on.

Own lexicon: oven. Tests: ``tests/measure/test_ovens.py``, ``test_heat_scales.py``, ``test_worked_examples.py``.
"""
