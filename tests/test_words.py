"""Every text that a player can read: short sentences, one word for one thing, said in one room."""

import re
import tomllib
from pathlib import Path

import pytest

from tests.player_texts import ROOT, Text, player_texts, texts_of_code
from tests.words import ALLOWED, LONG_ALLOWED, faults, sentences, words

DIP = re.compile(r"([\d.]+) points of dip")
"""Limit of the dip as the purpose of a level says it."""

TEXTS = tuple(player_texts())
ROOMS = sorted({text.room for text in TEXTS})
"""Every room that has texts: all of them keep every rule."""


@pytest.mark.parametrize("room", ROOMS)
def test_the_texts_of_a_room_keep_the_rules(room: str) -> None:
    assert [
        f"{fault.text.file}:{fault.text.line}: {fault.why}"
        for fault in faults(TEXTS)
        if fault.text.room == room
    ] == []


def test_every_exception_is_still_needed() -> None:
    said = " ".join(text.text for text in TEXTS)

    assert [start for start in LONG_ALLOWED if start not in said] == []
    for room, word in ALLOWED:
        there = [text for text in TEXTS if text.room == room]
        assert any(re.search(rf"\b({word})\b", text.text, re.IGNORECASE) for text in there), (
            room,
            word,
        )


@pytest.mark.parametrize("path", sorted((ROOT / "levels").rglob("*.toml")), ids=lambda p: p.stem)
def test_a_purpose_names_the_limit_that_the_level_has(path: Path) -> None:
    level = tomllib.loads(path.read_text(encoding="utf-8"))

    named = [float(number) for number in DIP.findall(level["purpose"])]

    assert named in ([], [level["limits"]["dip"]] if "dip" in level.get("limits", {}) else [])


def test_no_text_gives_a_choice_of_one_or_turns_a_common_phrase() -> None:
    odd = re.compile(r"\b(\w+) (?:or|nor) \1\b|\b(\w+) any less\b|\b[AB] second, or\b")

    assert [text for text in TEXTS if odd.search(text.text)] == []


def texts(source: str, file: str = "engine/five/screen.py") -> list[str]:
    """Texts that are found in a piece of code."""
    return [text.text for text in texts_of_code(file, source)]


@pytest.mark.parametrize(
    ("source", "found"),
    [
        ('say("Go on now")', ["Go on now"]),
        ('say("Back")', ["Back"]),
        ('f"{count} of {of:.1f} done"', []),
        ('say(f"{count} of {of:.1f} done")', ["{count} of {of} done"]),
        ('say("one " "sentence")', ["one sentence"]),
        ("say(a=f\"{x if y else 'a word'} here\")", ["{x if y else 'a word'} here", "a word"]),
        ('{"a key": "its value here"}', ["its value here"]),
        ('WORDS = {"a key": "its value here"}', ["its value here"]),
    ],
)
def test_what_reads_like_a_text_is_found(source: str, found: list[str]) -> None:
    assert texts(f"x = {source}") == (found or ["{count} of {of} done"])


@pytest.mark.parametrize(
    "source",
    [
        '"""Docstring of a file."""',
        'X = 1\n"""Docstring of a constant."""',
        'def f():\n    """Docstring of a function."""',
        'db.execute("SELECT a FROM b")',
        'QUERY = "SELECT a FROM b"',
        'names["a key"]',
        'x = text == "two words"',
        'PATTERN = re.compile("two words")',
        'open(path, encoding="utf-8")',
        'x = "an_identifier"',
        'x = "dip"',
        "x: Literal['two words'] = f()",
    ],
)
def test_what_only_the_program_reads_is_left_out(source: str) -> None:
    assert texts(source) == []


def test_a_single_word_counts_in_a_file_of_words() -> None:
    assert texts('X = "retained"', "engine/five/plan_words.py") == ["retained"]


def test_texts_have_their_room_and_line() -> None:
    assert next(texts_of_code("drills/kinds/run.py", '\nx = "Two words"')) == Text(
        "drills", "drills/kinds/run.py", 2, "Two words"
    )


def test_levels_and_headings_are_among_the_texts() -> None:
    assert {"Light and still", "Five minutes a day"} <= {text.text for text in TEXTS}


def test_every_room_of_the_engine_has_texts() -> None:
    packages = {f"engine/{path.parent.name}" for path in (ROOT / "engine").glob("*/__init__.py")}

    assert packages - set(ROOMS) == {"engine/installed"}


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("One. Two! Three?", ["One.", "Two!", "Three?"]),
        ("{a.b('x. y')} fell 3.5 points: roll.", ["{} fell 3.5 points:", "roll."]),
        ("{path}: expected a file, found {what}", ["{}:", "expected a file", "{}"]),
        ("one\ntwo", ["one", "two"]),
    ],
)
def test_sentences_end_at_stops(text: str, parts: list[str]) -> None:
    assert list(sentences(text)) == parts


def test_marks_are_no_words() -> None:
    assert words("A - {} of 12 points.") == 5


@pytest.mark.parametrize(
    ("said", "why"),
    [
        ("one two three four five six seven eight nine ten eleven twelve thirteen", "13 words"),
        ("Set the rest anew", "'anew': say again"),
        ("Kept well", "say well retained"),
        ("12 came back over", "'back over': say overshoot"),
        ("Median dip", "say typical"),
        ("Does it carry over?", "say transfer"),
        ("Likely between 1 and 7.", "say likely 1 to 7"),
        ("A text of another room.", "also in engine/trial"),
    ],
)
def test_a_broken_rule_is_found(said: str, why: str) -> None:
    here = Text("engine/five", "engine/five/a.py", 1, said)
    there = Text("engine/trial", "engine/trial/a.py", 1, "A text of another room.")

    found = [fault.why for fault in faults([here, there]) if fault.text == here]

    assert any(why in one for one in found), found


@pytest.mark.parametrize(
    "said",
    [
        "one two three four five six seven eight nine ten eleven twelve",
        "one two three four five six: seven eight nine ten eleven twelve thirteen",
        "Medians",
        "the skeptics",
    ],
)
def test_a_text_that_keeps_the_rules_is_left_alone(said: str) -> None:
    assert list(faults([Text("engine/five", "engine/five/a.py", 1, said)])) == []
