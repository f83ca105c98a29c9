"""The draft: lines, method, times and questions of every dish, made of what was heard. Tests: ``tests/draft``."""
