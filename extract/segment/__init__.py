"""Dishes of a show: the reader's answers in; stretches, titles and what is talk out. Tests: ``tests/segment``."""
