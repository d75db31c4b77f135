"""Reading levels: the shipped ones, the defaults, and every mistake by its whole text."""

from pathlib import Path

import pytest

from drills.foreperiod import Foreperiod
from drills.kinds import KINDS
from drills.level import Aid, Feedback, Level, PassRule, parse_level
from drills.reader import LevelError
from drills.score import Limit
from drills.trace import Pedal

SHIPPED = sorted((Path(__file__).parents[2] / "levels").rglob("*.toml"))

BLIP = """
id = "my-blip"
title = "Mine"
purpose = "A level of my own."
kind = "blip"
targets = [60, 45.5]
tolerance = 15
[limits.dip]
at = 15
weight = 0.75
[limits.settle]
at = 0.6
weight = 0.25
"""
HOLD = """
id = "my-hold"
title = "Mine"
purpose = "A hold of my own."
kind = "hold"
targets = [30]
tolerance = 5
duration = 4
limits = { total_error = { at = 4, weight = 1 } }
"""


def parse(text: str) -> Level:
    """The level in a text, from a file called mine.toml."""
    return parse_level(text, "mine.toml", KINDS)


def test_a_level_that_says_the_least_has_the_usual_rest() -> None:
    assert parse(BLIP) == Level(
        id="my-blip",
        title="Mine",
        purpose="A level of my own.",
        kind=KINDS["blip"],
        targets=(60.0, 45.5),
        tolerance=15.0,
        limits={"dip": Limit(15.0, 0.75), "settle": Limit(0.6, 0.25)},
        band=5.0,
        own={},
        foreperiod=Foreperiod(1.0, 1.5, 6.0),
        aid=Aid.TONE,
        feedback=Feedback.EVERY,
        summary=5,
        repetitions=10,
        rule=PassRule(8, 10),
        needs=(),
        pedals=(Pedal.BRAKE, Pedal.THROTTLE),
    )


def test_the_usual_rule_passes_with_8_clean_of_the_last_10() -> None:
    assert (PassRule().clean, PassRule().of) == (8, 10)


def test_a_level_that_says_everything_is_taken_at_its_word() -> None:
    level = parse(
        'band = 3\naid = "bubble"\nfeedback = "summary"\nsummary = 8\nrepetitions = 20\n'
        'needs = ["one", "two"]\npedals = ["brake", "clutch"]\n'
        "pass = { clean = 3, of = 4 }\nforeperiod = { shift = 2, mean = 1, cut = 3 }\n" + HOLD
    )

    assert level.own == {"duration": 4.0}
    assert (level.band, level.aid, level.feedback) == (3.0, Aid.BUBBLE, Feedback.SUMMARY)
    assert (level.summary, level.repetitions) == (8, 20)
    assert level.needs == ("one", "two")
    assert level.pedals == (Pedal.BRAKE, Pedal.CLUTCH)
    assert level.rule == PassRule(3, 4)
    assert level.foreperiod == Foreperiod(2.0, 1.0, 3.0)


@pytest.mark.parametrize(("tolerance", "band"), [(15, 5.0), (3, 3.0)])
def test_the_target_is_found_within_the_narrower_of_band_and_tolerance(
    tolerance: float, band: float
) -> None:
    level = parse(BLIP.replace("tolerance = 15", f"tolerance = {tolerance}"))

    assert level.approach_band == band


NUMBER = "expected a number from"
AIDS = "expected one of bubble, tone"
FEEDBACKS = "expected one of every, summary, outside, none"
PEDALS = "expected a list of words among brake, throttle, clutch"
WORDS = "expected lower-case words, digits and single hyphens"
TOP = (
    "aid, band, feedback, foreperiod, id, kind, limits, needs, pass, pedals, purpose, repetitions, "
    "summary, targets, title, tolerance"
)
LIMITED = ", ".join(KINDS["blip"].limited)

# What is replaced, by what, and what is said of it after the name of the file.
MISTAKES = [
    ('kind = "blip"', "", "kind: expected one of hold, blip, found nothing"),
    ('kind = "blip"', 'kind = "jump"', "kind: expected one of hold, blip, found 'jump'"),
    ('kind = "blip"', "kind = 3", "kind: expected one of hold, blip, found 3"),
    ('id = "my-blip"', "", f"id: {WORDS}, found nothing"),
    ('id = "my-blip"', 'id = "My blip"', f"id: {WORDS}, found 'My blip'"),
    ('id = "my-blip"', 'id = "my--blip"', f"id: {WORDS}, found 'my--blip'"),
    ('"Mine"', '"  "', "title: expected one line of 1 to 40 characters, found '  '"),
    ('"Mine"', '"a\\nb"', "title: expected one line of 1 to 40 characters, found 'a\\nb'"),
    (
        '"Mine"',
        f'"{"m" * 41}"',
        "title: expected one line of 1 to 40 characters, found 41 characters",
    ),
    (
        '"A level of my own."',
        "7",
        "purpose: expected one line of 1 to 120 characters, found 7",
    ),
    (
        "targets = [60, 45.5]",
        "targets = []",
        "targets: expected a list of numbers from 10 to 95, found []",
    ),
    (
        "targets = [60, 45.5]",
        "targets = 60",
        "targets: expected a list of numbers from 10 to 95, found 60",
    ),
    ("45.5]", "96]", f"targets[1]: {NUMBER} 10 to 95, found 96"),
    ("45.5]", '"45"]', f"targets[1]: {NUMBER} 10 to 95, found '45'"),
    ("45.5]", "nan]", f"targets[1]: {NUMBER} 10 to 95, found nan"),
    ("tolerance = 15", "", f"tolerance: {NUMBER} 0.5 to 50, found nothing"),
    ("tolerance = 15", "tolerance = true", f"tolerance: {NUMBER} 0.5 to 50, found True"),
    ("tolerance = 15", "tolerance = 0.4", f"tolerance: {NUMBER} 0.5 to 50, found 0.4"),
    ("[limits.dip]", "band = 51\n[limits.dip]", f"band: {NUMBER} 0.5 to 50, found 51"),
    ("[limits.dip]", 'aid = "eye"\n[limits.dip]', f"aid: {AIDS}, found 'eye'"),
    (
        "[limits.dip]",
        'feedback = "always"\n[limits.dip]',
        f"feedback: {FEEDBACKS}, found 'always'",
    ),
    (
        "[limits.dip]",
        "summary = 1\n[limits.dip]",
        "summary: expected a whole number from 2 to 20, found 1",
    ),
    (
        "[limits.dip]",
        "repetitions = 2.5\n[limits.dip]",
        "repetitions: expected a whole number from 1 to 50, found 2.5",
    ),
    ("[limits.dip]", 'needs = "x"\n[limits.dip]', "needs: expected a list of words, found 'x'"),
    ("[limits.dip]", "needs = [1]\n[limits.dip]", "needs: expected a list of words, found 1"),
    ("[limits.dip]", 'pedals = ["gas"]\n[limits.dip]', f"pedals: {PEDALS}, found 'gas'"),
    ("[limits.dip]", "foreperiod = 2\n[limits.dip]", "foreperiod: expected a table, found 2"),
    (
        "[limits.dip]",
        "foreperiod = { shift = 0.5 }\n[limits.dip]",
        f"foreperiod.shift: {NUMBER} 1 to 10, found 0.5",
    ),
    (
        "[limits.dip]",
        "foreperiod = { least = 1 }\n[limits.dip]",
        "foreperiod.least: expected one of cut, mean, shift, found an unknown key",
    ),
    (
        "[limits.dip]",
        "pass = { clean = 9, of = 8 }\n[limits.dip]",
        "pass.clean: expected at most pass.of = 8, found 9",
    ),
    (
        "[limits.dip]",
        "colour = 1\n[limits.dip]",
        f"colour: expected one of {TOP}, found an unknown key",
    ),
    (
        "[limits.dip]",
        "duration = 4\n[limits.dip]",
        f"duration: expected one of {TOP}, found an unknown key",
    ),
    (
        "weight = 0.25",
        "weight = 0.3",
        "limits: expected weights that sum to 1, found a sum of 1.05",
    ),
    (
        "weight = 0.25",
        "weight = 0.249",
        "limits: expected weights that sum to 1, found a sum of 0.999",
    ),
    ("weight = 0.75", "weight = 1.5", f"limits.dip.weight: {NUMBER} 0.001 to 1, found 1.5"),
    ("at = 15\n", "", f"limits.dip.at: {NUMBER} 0.001 to 1000, found nothing"),
    ("at = 15\n", "at = 0\n", f"limits.dip.at: {NUMBER} 0.001 to 1000, found 0"),
    (
        "at = 15\n",
        "at = 15\nunit = 1\n",
        "limits.dip.unit: expected one of at, weight, found an unknown key",
    ),
    (
        "[limits.dip]",
        "[limits.base]",
        f"limits.base: expected one of {LIMITED}, found a limit on something else",
    ),
    ("[limits.dip]", "[limits]\ndip = 3\n[limits.x]", "limits.dip: expected a table, found 3"),
]


@pytest.mark.parametrize(("old", "new", "said"), MISTAKES, ids=[row[2] for row in MISTAKES])
def test_a_mistake_is_named_by_file_key_what_was_expected_and_what_was_found(
    old: str, new: str, said: str
) -> None:
    assert BLIP.count(old) >= 1

    with pytest.raises(LevelError) as refused:
        parse(BLIP.replace(old, new, 1))

    assert str(refused.value) == f"mine.toml: {said}"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            HOLD.replace("duration = 4\n", ""),
            "duration: expected a number from 1 to 60, found nothing",
        ),
        (
            HOLD[: HOLD.index("limits")],
            "limits: expected a table, found nothing",
        ),
        (
            HOLD.replace("{ total_error = { at = 4, weight = 1 } }", "{}"),
            "limits: expected a table, found {}",
        ),
        (
            "id = ",
            "the file: expected TOML, found Invalid value (at end of document)",
        ),
    ],
)
def test_a_mistake_in_another_text_is_named_too(text: str, said: str) -> None:
    with pytest.raises(LevelError) as refused:
        parse(text)

    assert str(refused.value) == f"mine.toml: {said}"


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
            f"tolerance: {NUMBER} 0.5 to 50, found a value too large to show",
        ),
        (
            "[limits.dip]",
            f"repetitions = {HUGE}\n[limits.dip]",
            "repetitions: expected a whole number from 1 to 50, found a value too large to show",
        ),
        (
            "[limits.dip]",
            f"{'k' * 5000} = 1\n[limits.dip]",
            f"{'k' * 57}...: expected one of {TOP}, found an unknown key",
        ),
        (
            "[limits.dip]",
            '"a\\nb" = 1\n[limits.dip]',
            f"'a\\nb': expected one of {TOP}, found an unknown key",
        ),
    ],
    ids=["nested", "digits", "hexadecimal", "dotted", "whole", "long key", "two-line key"],
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


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.name)
def test_a_shipped_level_can_be_read_and_is_called_as_its_file(path: Path) -> None:
    level = parse_level(path.read_text(encoding="utf-8"), path.name, KINDS)

    assert level.id == path.stem
    assert Pedal.BRAKE in level.pedals
    assert (Pedal.THROTTLE in level.pedals) == (level.kind.name == "blip")


def test_keeping_the_brake_within_15_percent_is_good() -> None:
    # Common practice: holding within 15 % through a blip is good.
    path = next(path for path in SHIPPED if path.stem == "blip-3-good")

    level = parse_level(path.read_text(encoding="utf-8"), path.name, KINDS)

    assert level.tolerance == 15
    assert (level.limits["dip"].at, level.limits["surge"].at) == (15, 15)
