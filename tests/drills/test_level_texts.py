"""Texts of levels that cannot be seen, shown or read, each refused in one line."""

import pytest

from drills.level_file import LevelError
from tests.drills.test_level import BLIP, parse
from tests.drills.test_level_mistakes import NUMBER, TOP

TEXT = "expected visible text"


@pytest.mark.parametrize(
    ("title", "said"),
    [
        ("\\u200b", f"title: {TEXT}, found '\\u200b'"),
        ("\u200b", f"title: {TEXT}, found '\\u200b'"),
        ("\u0301\u0302", f"title: {TEXT}, found '\\u0301\\u0302'"),
        ("a\\u0007", f"title: {TEXT}, found 'a\\x07'"),
        ("a\\n", f"title: {TEXT}, found 'a\\n'"),
        ("a\\u2028", f"title: {TEXT}, found 'a\\u2028'"),
        ("\ue000", f"title: {TEXT}, found '\\ue000'"),
        ("\u3164\u2800", f"title: {TEXT}, found '\\u3164\\u2800'"),
    ],
)
def test_a_title_that_cannot_be_seen_is_refused(title: str, said: str) -> None:
    with pytest.raises(LevelError) as refused:
        parse(BLIP.replace("Mine", title))

    assert str(refused.value) == f"mine.toml: {said}"


@pytest.mark.parametrize("title", ["é", "e\u0301", "踵", "7", "!", "a\u200db", "👣"])
def test_a_title_may_be_of_any_signs_that_can_be_seen(title: str) -> None:
    assert parse(BLIP.replace("Mine", title)).title == title


HUGE = "0x" + "f" * 5000


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("15", "[" * 2000 + "]" * 2000, "the file: expected TOML, found it nested too deeply"),
        ("15", "9" * 5000, "the file: expected TOML, found a number of too many digits"),
        ("15", HUGE, f"tolerance: {NUMBER} 0.5 to 50, found a value too large to show"),
        (
            "tolerance = 15",
            f"tolerance{'.x' * 2000} = 1",
            "the file: expected TOML, found it nested too deeply",
        ),
        (
            "tolerance = 15",
            f"tolerance{'.x' * 20} = 1",
            "the file: expected TOML, found it nested too deeply",
        ),
        (
            "tolerance = 15",
            f"tolerance{'.x' * 19} = 1",
            f"tolerance: {NUMBER} 0.5 to 50, found " + "{'x': " * 9 + "{'x...",
        ),
        (
            "[limits]",
            f"repetitions = {HUGE}\n[limits]",
            "repetitions: expected a whole number from 1 to 50, found a value too large to show",
        ),
        (
            "[limits]",
            f"{'k' * 5000} = 1\n[limits]",
            f"{'k' * 57}...: expected one of {TOP}, found an unknown key",
        ),
        (
            "[limits]",
            '"a\\nb" = 1\n[limits]',
            f"'a\\nb': expected one of {TOP}, found an unknown key",
        ),
    ],
    ids=[
        *("nested", "digits", "hexadecimal", "dotted", "too deep", "just not too deep"),
        *("whole", "long key", "two-line key"),
    ],
)
def test_what_is_too_large_or_too_deep_is_named_in_one_short_line(
    old: str, new: str, said: str
) -> None:
    with pytest.raises(LevelError) as refused:
        parse(BLIP.replace(old, new, 1))

    assert str(refused.value) == f"mine.toml: {said}"


def test_a_long_value_is_shown_by_its_beginning() -> None:
    with pytest.raises(LevelError) as refused:
        parse(BLIP.replace("tolerance = 15", f'tolerance = "{"x" * 80}"'))

    shown = "'" + "x" * 56 + "..."
    assert str(refused.value) == (
        f"mine.toml: tolerance: expected a number from 0.5 to 50, found {shown}"
    )


def test_a_placing_set_asks_no_stage_by_a_mixed_level() -> None:
    with pytest.raises(LevelError) as refused:
        parse(
            'id = "mine"\ntitle = "Mine"\npurpose = "All of it."\nkind = "mixed"\n'
            "targets = [60]\ntolerance = 5\nplacing = true\n"
        )

    assert str(refused.value) == (
        "mine.toml: placing: expected false, as a mixed level asks nothing of its own, found true"
    )
