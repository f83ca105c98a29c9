"""Measures: units, weights of foods, drafts put into others. Tests: ``tests/measure``."""
