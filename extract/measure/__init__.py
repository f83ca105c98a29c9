"""Measures: units, weights of foods, figures as kitchens write them, drafts put into others. Held by ``tests/measure``."""
