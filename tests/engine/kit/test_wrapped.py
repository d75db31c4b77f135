"""Lines that a text is broken into, here of letters that are all one wide."""

import pytest

from engine.kit.canvas import wrapped


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ("", [""]),
        ("one two", ["one two"]),
        ("one two three", ["one two", "three"]),
        ("/home/somebody", ["/home/som", "ebody"]),
        ("in /home/somebody/else", ["in", "/home/som", "ebody/els", "e"]),
        ("/home/somebody else", ["/home/som", "ebody", "else"]),
    ],
)
def test_a_text_is_broken_at_spaces_and_a_wide_word_anywhere(text: str, lines: list[str]) -> None:
    assert wrapped(text, 9, len) == lines


def test_a_letter_wider_than_a_line_stands_alone() -> None:
    assert wrapped("ab", 0.5, len) == ["a", "b"]
