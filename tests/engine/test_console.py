"""Messages on the console: on one line, without control characters."""

import pytest

from engine.console import one_line


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("as it is", "as it is"),
        ("grün, 踵, 👣", "grün, 踵, 👣"),
        ("two\nlines\r\nand\u2028three", "two lines and three"),
        ("\x1b[2Jgone\x07", "\\x1b[2Jgone\\x07"),
        ("gr\udcfcn", "gr\\udcfcn"),
        ("a\0b\tc\x9bd", "a\\x00b\\tc\\x9bd"),
    ],
)
def test_a_text_is_put_on_one_line_with_escapes(text: str, line: str) -> None:
    assert one_line(text) == line
