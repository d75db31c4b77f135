"""Text files are read with the byte order marks that Windows puts before them, or refused."""

import pytest

from drills.text import TextError, decoded

TEXT = "Zeit;grün;踵;👣\r\n"


@pytest.mark.parametrize(
    "raw",
    [
        TEXT.encode(),
        b"\xef\xbb\xbf" + TEXT.encode(),
        b"\xff\xfe" + TEXT.encode("utf-16-le"),
        b"\xfe\xff" + TEXT.encode("utf-16-be"),
    ],
    ids=["UTF-8", "UTF-8 with a mark", "UTF-16 LE", "UTF-16 BE"],
)
def test_a_text_is_the_same_in_every_encoding(raw: bytes) -> None:
    assert decoded(raw) == TEXT


@pytest.mark.parametrize("raw", [b"", b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff"])
def test_a_file_of_nothing_but_a_mark_is_empty(raw: bytes) -> None:
    assert decoded(raw) == ""


@pytest.mark.parametrize(
    ("raw", "said"),
    [
        (b"abc\xff", "expected UTF-8 text, found a byte at 3 that is not UTF-8"),
        (b"\xef\xbb\xbfabc\xff", "expected UTF-8 text, found a byte at 6 that is not UTF-8"),
        (b"\xff", "expected UTF-8 text, found a byte at 0 that is not UTF-8"),
        (b"a\0b\0", "expected UTF-8 text, found a zero byte"),
        (b"\xff\xfea\0b", "expected UTF-16 text, found a byte at 4 that is not UTF-16"),
        (b"\xff\xfe\0\xd8b\0", "expected UTF-16 text, found a byte at 2 that is not UTF-16"),
        (b"\xfe\xff\0a\0\0", "expected UTF-16 text, found a zero byte"),
    ],
)
def test_what_is_no_text_is_named_in_one_line(raw: bytes, said: str) -> None:
    with pytest.raises(TextError) as caught:
        decoded(raw)

    assert str(caught.value) == said
