"""Written ingredient lines: a line of text in; foods, amounts and remarks out.

Own lexicons: written_units, written_words; numbers and units are shared with speech. Tests:
``tests/check/written/test_written_lines.py``.
"""
