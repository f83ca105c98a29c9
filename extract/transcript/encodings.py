"""From the bytes of a file to its text: UTF-8 with or without a mark, UTF-16, Windows-1252."""

from __future__ import annotations

import codecs
import re

from extract.errors import CardwrightError

MARKS = (
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF32_LE, "utf-32-le"),
    (codecs.BOM_UTF32_BE, "utf-32-be"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)
REMEDY = "give a transcript as text: WebVTT, SubRip, TTML, JSON, stamped or plain text"
_CONTROL = re.compile(r"[\x00-\x08\x0e-\x1a\x1c-\x1f\x7f]")


def decode_text(data: bytes, name: str) -> str:
    """The text of ``data``, without its byte order mark.

    Raises CardwrightError where it is empty or not text.
    """
    if not data.strip(b" \t\r\n\x00"):
        problem = "the file is empty"
        raise CardwrightError(problem, path=name, line=1, remedy=REMEDY)
    for mark, encoding in MARKS:
        if data.startswith(mark):
            return _checked(_strict(data[len(mark) :], encoding, name), name)
    encoding = _unmarked_utf16(data)
    if encoding:
        return _checked(_strict(data, encoding, name), name)
    try:
        return _checked(data.decode("utf-8"), name)
    except UnicodeDecodeError:
        return _checked(_windows(data, name), name)


def _unmarked_utf16(data: bytes) -> str:
    """UTF-16 without a mark shows as zero bytes at every second place of English text."""
    head = data[:2000]
    if len(data) % 2 or not head:
        return ""
    for first, encoding in ((1, "utf-16-le"), (0, "utf-16-be")):
        if head[first::2].count(0) * 10 >= len(head[first::2]) * 8 and head[1 - first :: 2].count(0) == 0:
            return encoding
    return ""


def _strict(data: bytes, encoding: str, name: str) -> str:
    try:
        return data.decode(encoding)
    except UnicodeDecodeError as error:
        text = data[: error.start].decode(encoding, errors="ignore")
        problem = f"this is not whole {encoding.upper()} text"
        raise CardwrightError(
            problem, path=name, line=text.count("\n") + 1, remedy="save the file as UTF-8"
        ) from None


def _windows(data: bytes, name: str) -> str:
    """Windows-1252, where the bytes look like it: few of them beyond ASCII, none undefined."""
    try:
        text = data.decode("cp1252")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        problem = f"byte 0x{data[error.start]:02x} is neither UTF-8 nor Windows-1252 text"
        raise CardwrightError(problem, path=name, line=line, remedy="save the file as UTF-8") from None
    if sum(1 for byte in data if byte > 0x7F) * 4 > len(data):
        problem = "this is not text in UTF-8, UTF-16 or Windows-1252"
        raise CardwrightError(problem, path=name, line=1, remedy=REMEDY)
    return text


def _checked(text: str, name: str) -> str:
    """``text`` unless control characters tell a binary; a stray zero becomes U+FFFD (WebVTT section 6.1)."""
    if not text.strip():
        problem = "the file is empty"
        raise CardwrightError(problem, path=name, line=1, remedy=REMEDY)
    controls = [found.start() for found in _CONTROL.finditer(text)]
    if len(controls) * 100 > len(text):
        line = text.count("\n", 0, controls[0]) + 1
        problem = "this is a binary file, not text"
        raise CardwrightError(problem, path=name, line=line, remedy=REMEDY)
    return text.removeprefix("\ufeff").replace("\x00", "\ufffd")
