"""The method: numbered steps in the imperative, each with the actions it tells and the words they rest on."""

from extract.draft.method.build import build_method
from extract.draft.method.phrases.names import Resolve

__all__ = ["Resolve", "build_method"]
