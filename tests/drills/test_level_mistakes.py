"""Mistakes in a level file, each named by file, key, what was expected and what was found."""

import pytest

from drills.kinds import KINDS
from drills.level_file import LevelError
from tests.drills.test_level import BLIP, HOLD, parse

NUMBER = "expected a number from"
AIDS = "expected one of bubble, tone, none"
FEEDBACKS = "expected one of every, summary, outside, none"
PEDALS = "expected a list of words among brake, throttle, clutch"
WORDS = "expected lower-case words, digits and single hyphens"
TOP = (
    "aid, answers, band, blip, feedback, foreperiod, guess, id, kind, limits, needs, pass, pedals, "
    "placing, purpose, reach, repetitions, summary, targets, title, tolerance"
)
KINDS_NAMED = "hold, squeeze, blip, counting, run, trail, clutch, zone, mixed"
LIMITED = ", ".join(KINDS["blip"].limitable)

# What is replaced, by what, and what is said of it after the name of the file.
MISTAKES = [
    ('kind = "blip"', "", f"kind: expected one of {KINDS_NAMED}, found nothing"),
    ('kind = "blip"', 'kind = "jump"', f"kind: expected one of {KINDS_NAMED}, found 'jump'"),
    ('kind = "blip"', "kind = 3", f"kind: expected one of {KINDS_NAMED}, found 3"),
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
        "targets: expected a number from 10 to 95, a list of them, or { least, most }, found []",
    ),
    (
        "targets = [60, 45.5]",
        'targets = "60"',
        "targets: expected a number from 10 to 95, a list of them, or { least, most }, found '60'",
    ),
    ("45.5]", "96]", f"targets[1]: {NUMBER} 10 to 95, found 96"),
    ("45.5]", '"45"]', f"targets[1]: {NUMBER} 10 to 95, found '45'"),
    ("45.5]", "nan]", f"targets[1]: {NUMBER} 10 to 95, found nan"),
    ("tolerance = 15", "", f"tolerance: {NUMBER} 0.5 to 50, found nothing"),
    ("tolerance = 15", "tolerance = true", f"tolerance: {NUMBER} 0.5 to 50, found True"),
    ("tolerance = 15", "tolerance = 0.4", f"tolerance: {NUMBER} 0.5 to 50, found 0.4"),
    ("[limits]", "band = 51\n[limits]", f"band: {NUMBER} 0.5 to 50, found 51"),
    ("[limits]", 'aid = "eye"\n[limits]', f"aid: {AIDS}, found 'eye'"),
    (
        "[limits]",
        'feedback = "always"\n[limits]',
        f"feedback: {FEEDBACKS}, found 'always'",
    ),
    (
        "[limits]",
        "summary = 1\n[limits]",
        "summary: expected a whole number from 2 to 20, found 1",
    ),
    (
        "[limits]",
        "repetitions = 2.5\n[limits]",
        "repetitions: expected a whole number from 1 to 50, found 2.5",
    ),
    ("[limits]", 'needs = "x"\n[limits]', "needs: expected a list of words, found 'x'"),
    ("[limits]", "needs = [1]\n[limits]", "needs: expected a list of words, found 1"),
    ("[limits]", 'pedals = ["gas"]\n[limits]', f"pedals: {PEDALS}, found 'gas'"),
    ("[limits]", "foreperiod = 2\n[limits]", "foreperiod: expected a table, found 2"),
    (
        "[limits]",
        "foreperiod = { shift = 0.5 }\n[limits]",
        f"foreperiod.shift: {NUMBER} 1 to 10, found 0.5",
    ),
    (
        "[limits]",
        "foreperiod = { least = 1 }\n[limits]",
        "foreperiod.least: expected one of cut, mean, shift, found an unknown key",
    ),
    (
        "[limits]",
        "pass = { clean = 9, of = 8 }\n[limits]",
        "pass.clean: expected at most pass.of = 8, found 9",
    ),
    (
        "[limits]",
        "colour = 1\n[limits]",
        f"colour: expected one of {TOP}, found an unknown key",
    ),
    (
        "[limits]",
        "duration = 4\n[limits]",
        f"duration: expected one of {TOP}, found an unknown key",
    ),
    ("dip = 15", "dip = 0", f"limits.dip: {NUMBER} 0.001 to 1000, found 0"),
    ("dip = 15", 'dip = "15"', f"limits.dip: {NUMBER} 0.001 to 1000, found '15'"),
    (
        "dip = 15",
        "dip = { at = 15, weight = 1 }",
        f"limits.dip: {NUMBER} 0.001 to 1000, found {{'at': 15, 'weight': 1}}",
    ),
    (
        "dip = 15",
        "base = 15",
        f"limits.base: expected one of {LIMITED}, found a limit on something else",
    ),
    ("[limits]", "blip = 3\n[limits]", "blip: expected a table, found 3"),
    (
        "[limits]",
        "blip = { least = 60, most = 40 }\n[limits]",
        "blip.least: expected at most blip.most = 40, found 60",
    ),
    (
        "[limits]",
        "blip = { least = 10 }\n[limits]",
        f"blip.least: {NUMBER} 15 to 100, found 10",
    ),
    (
        "[limits]",
        "blip = { length = 1 }\n[limits]",
        "blip.length: expected one of least, longest, most, size, found an unknown key",
    ),
    (
        "[limits]",
        "blip = { size = 19 }\n[limits]",
        "blip.size: expected 0, or a number from 20 to 95, found 19",
    ),
    (
        "[limits]",
        "blip = { size = true }\n[limits]",
        "blip.size: expected 0, or a number from 20 to 95, found True",
    ),
    (
        "[limits]",
        "blip = { size = 60, least = 30 }\n[limits]",
        "blip.least: expected none, as blip.size = 60 is asked, found 30",
    ),
    (
        "[limits]",
        "blip = { size = 60, most = 100 }\n[limits]",
        "blip.most: expected none, as blip.size = 60 is asked, found 100",
    ),
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
            HOLD.replace("{ total_error = 4 }", "{}"),
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
