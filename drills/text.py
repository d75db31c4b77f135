"""Decoder for the text files that people write: UTF-8, or UTF-16 that begins with its mark.

Windows PowerShell writes UTF-16 where output is redirected with `>`.
"""

from __future__ import annotations

import codecs

from drills.refusal import Refusal

UTF_16 = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)
"""Byte order marks, one of which begins a file of UTF-16."""


class TextError(Refusal):
    """Bytes that are not text. The message says `expected X, found Y`."""

    def __init__(self, expected: str, found: str) -> None:
        super().__init__(f"expected {expected}, found {found}")
        self.expected = expected
        """Name of the encoding that was expected."""
        self.found = found
        """What is in its place."""


def decoded(raw: bytes) -> str:
    """Text of a file, without its byte order mark. Raises TextError."""
    encoding, name = ("utf-16", "UTF-16") if raw.startswith(UTF_16) else ("utf-8", "UTF-8")
    try:
        text = raw.decode(encoding).removeprefix("\ufeff")
    except UnicodeDecodeError as error:
        raise TextError(f"{name} text", f"a byte at {error.start} that is not {name}") from error
    if "\0" in text:
        raise TextError(f"{name} text", "a zero byte")
    return text
