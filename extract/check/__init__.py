"""Said against written: a draft and a written recipe in, a report of differences out. Tests: ``tests/check``."""
