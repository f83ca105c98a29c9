"""What is kept of a review: edits in; journal, draft on the disk and values over a new draft out.

Tests: ``tests/review/test_desk.py``, ``test_changes.py``, ``test_again.py``.
"""
