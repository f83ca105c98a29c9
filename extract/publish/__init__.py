"""Publication: a reviewed draft in; the page, JSON-LD, captions and other forms out. Tests: ``tests/publish``."""
