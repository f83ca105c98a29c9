"""Reading a recipe as editors write it into the draft's own form."""

from extract.check.written.document import read_written, read_written_text

__all__ = ["read_written", "read_written_text"]
