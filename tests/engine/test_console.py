"""Messages on the console: on one line, without control characters, the same bytes everywhere."""

import io
import sys
from collections.abc import Callable

import pytest

from engine.console import one_line, say, warn


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("as it is", "as it is"),
        ("grün, 踵, 👣", "grün, 踵, 👣"),
        ("two\nlines\r\nand\u2028three", "two lines and three"),
        ("\x1b[2Jgone\x07", "\\x1b[2Jgone\\x07"),
        ("gr\udcfcn", "gr\\udcfcn"),
        ("a\0b\tc\x9bd", "a\\x00b\\tc\\x9bd"),
        ("gnp.\u202efed\u2069", "gnp.\\u202efed\\u2069"),
    ],
)
def test_a_text_is_put_on_one_line_with_escapes(text: str, line: str) -> None:
    assert one_line(text) == line


class Terminal(io.TextIOWrapper):
    """Stream to a terminal."""

    def isatty(self) -> bool:
        """Whether it is one."""
        return True


def as_on_windows(stream: type[io.TextIOWrapper]) -> tuple[io.BytesIO, io.TextIOWrapper]:
    """Bytes, and a stream to them that translates as Python's standard streams do on Windows."""
    written = io.BytesIO()
    return written, stream(written, encoding="cp1252", newline="\r\n")


@pytest.mark.parametrize(
    ("stream", "write", "begin"), [("stdout", say, ""), ("stderr", warn, "stillfoot: ")]
)
def test_redirected_text_is_utf_8_with_line_feeds_on_every_system(
    monkeypatch: pytest.MonkeyPatch, stream: str, write: Callable[[str], None], begin: str
) -> None:
    written, redirected = as_on_windows(io.TextIOWrapper)
    monkeypatch.setattr(sys, stream, redirected)

    write("grün, 踵\n")
    write("gr\udcfcn\n")

    assert written.getvalue() == f"{begin}grün, 踵\n{begin}gr\\udcfcn\n".encode()


@pytest.mark.parametrize(("stream", "write"), [("stdout", say), ("stderr", warn)])
def test_nothing_written_turns_the_direction_of_writing(
    monkeypatch: pytest.MonkeyPatch, stream: str, write: Callable[[str], None]
) -> None:
    written = io.StringIO()
    monkeypatch.setattr(sys, stream, written)

    write("gnp.\u202efed: none\n")

    assert written.getvalue().endswith("gnp.\\u202efed: none\n")


def test_a_terminal_is_written_to_in_its_own_encoding(monkeypatch: pytest.MonkeyPatch) -> None:
    written, terminal = as_on_windows(Terminal)
    monkeypatch.setattr(sys, "stdout", terminal)

    say("grün, 踵\n")

    assert written.getvalue() == b"gr\xfcn, \\u8e35\r\n"


def test_a_stream_without_bytes_gets_the_text(monkeypatch: pytest.MonkeyPatch) -> None:
    stream = io.StringIO()
    monkeypatch.setattr(sys, "stdout", stream)

    say("grün, 踵\n")

    assert stream.getvalue() == "grün, 踵\n"
