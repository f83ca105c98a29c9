"""What the page is shown: a desk in; fields, words, the finished page and what lies beside the draft out.

Tests: ``tests/review/test_sides.py``, ``test_server.py``, ``test_browser.py``.
"""
