"""Characters that turn the direction of writing: all of them are found, and nothing else."""

import sys
import unicodedata

import pytest

from drills.direction import turns, unturned
from drills.level_file import LevelError
from tests.drills.test_level import BLIP, parse

MARKS = [
    chr(code)
    for code in range(sys.maxunicode + 1)
    if unicodedata.bidirectional(chr(code))
    in ("LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI")
] + ["\u061c", "\u200e", "\u200f"]
"""Every character that Unicode's table says turns the direction, and the three marks of one."""


@pytest.mark.parametrize("mark", MARKS, ids=ascii)
def test_a_mark_is_found_and_shown_as_an_escape(mark: str) -> None:
    text = f"a{mark}b"

    assert turns(text)
    assert unturned(text) == f"a\\u{ord(mark):04x}b"
    assert not turns(unturned(text))


@pytest.mark.parametrize("text", ["", "toes", "größer ±2", "踵", "شمال", "שמאל", "a\u200db", "👣"])
def test_a_text_of_any_script_stays_as_it_is(text: str) -> None:
    assert not turns(text)
    assert unturned(text) == text


@pytest.mark.parametrize("key", ["title", "purpose"])
@pytest.mark.parametrize("mark", ["\u202e", "\u2066", "\u200f", "\u061c"], ids=ascii)
def test_a_mark_in_a_text_of_a_level_is_refused_and_shown_as_an_escape(key: str, mark: str) -> None:
    text = f'{key} = "heel {mark}eot"\n' + "".join(
        line for line in BLIP.splitlines(keepends=True) if not line.startswith(key)
    )

    with pytest.raises(LevelError) as refused:
        parse(text)

    assert str(refused.value) == (
        f"mine.toml: {key}: expected text that does not turn the direction of writing, "
        f"found 'heel \\u{ord(mark):04x}eot'"
    )
