"""The language model's reading of the words, tied back to the clock."""

from extract.language.speech import Speech, load_model, read_speech

__all__ = ["Speech", "load_model", "read_speech"]
