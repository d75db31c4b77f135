"""The example of every kind is a level, and what it says of each key is what the parser says."""

import re
import tomllib
from collections.abc import Mapping

import pytest

from drills.example import example
from drills.kinds import KINDS
from drills.kinds.blip import BlipDrill
from drills.kinds.zone import ZoneDrill
from drills.kinds.zone_example import corner
from drills.level import Kind, Level
from drills.level_file import LevelError, parse_level
from drills.level_key import Key
from drills.measures.catalogue import CATALOGUE
from drills.measures.zone_table import (
    OF_THE_CHORDS,
    OF_THE_END,
    OF_THE_LINE,
    OF_THE_SQUEEZE,
    OF_THE_THROTTLE,
)


class MadeUp(BlipDrill):
    """A kind with keys that its levels must say, some without words, and nothing to limit."""

    name = "made-up"
    keys = (
        Key("falls", 1, 9, many=2, about="count, falling"),
        Key("few", 1, 9, most="many", whole=True, about="count, few"),
        Key("many", 1, 4, whole=True),
        Key("lean", -10, 30, about="points, lean"),
        Key("early", 0.5, 2, 1, table="beat"),
    )
    measures = ("base",)
    guess_measure = ""


MADE_UP = MadeUp()
ALL: Mapping[str, Kind] = {**KINDS, MADE_UP.name: MADE_UP}
every_kind = pytest.mark.parametrize("kind", ALL.values(), ids=list(ALL))
WRONG = "1979-05-27"
"""A date, which no key takes."""


def level_of(text: str) -> Level:
    """The level in a text."""
    return parse_level(text, "it", ALL)


def refusal(text: str) -> str:
    """What is said of a text that is no level."""
    with pytest.raises(LevelError) as refused:
        level_of(text)
    return str(refused.value)


def taken_in(text: str, kind: Kind) -> str:
    """An example with the lists in it that are comments."""
    for key in kind.keys:
        text = text.replace(f"\n# {key.name} = [", f"\n{key.name} = [")
    return text


def entries(text: str) -> dict[str, tuple[str, str]]:
    """Every key of an example by its path: its line, and the comment over it (or the table)."""
    found, table, comment, over = {}, "", "", ""
    for line in text.splitlines():
        if line.startswith("#"):
            comment += f"{line}\n"
        elif line.startswith("["):
            table, over, comment = f"{line.strip('[]')}.", comment, ""
        elif " = " in line:
            found[table + line.partition(" = ")[0]] = (line, comment or over)
            comment = ""
        else:
            comment = ""
    return found


def without(text: str, line: str) -> str:
    """A text without one line of it."""
    assert text.count(f"\n{line}\n") == 1
    return text.replace(f"\n{line}\n", "\n")


@every_kind
def test_the_example_is_a_level_of_its_kind(kind: Kind) -> None:
    level = level_of(example(kind, ALL))

    assert level.kind is kind
    assert set(level.own) == {key.path for key in kind.keys if not key.many}
    assert set(level.listed) == {key.path for key in kind.keys if key.many}


@every_kind
def test_the_example_says_every_key_that_a_level_may_have(kind: Kind) -> None:
    text = example(kind, ALL)

    known = re.search(r"expected one of (.*), found", refusal(f"unknown = 1\n{text}"))

    optional = set() if kind.limitable else {"limits"}
    instead = {key.name for key in kind.keys if key.many}
    assert known is not None
    assert set(tomllib.loads(text)) == set(known[1].split(", ")) - optional - instead
    assert all(f"\n# {name} = [" in text for name in instead)


@every_kind
def test_each_key_stands_under_what_the_parser_takes(kind: Kind) -> None:
    text = taken_in(example(kind, ALL), kind)

    for path, (line, comment) in entries(text).items():
        name = line.partition(" = ")[0]
        said = refusal(text.replace(f"\n{line}\n", f"\n{name} = {WRONG}\n"))
        takes = re.fullmatch(rf"it: {path}: expected (.*), found .*", said)
        assert takes is not None, said
        assert takes[1] in comment


@every_kind
def test_a_key_may_be_left_out_where_its_comment_says_so_and_is_then_what_it_says(
    kind: Kind,
) -> None:
    text = example(kind, ALL)
    whole = level_of(text)

    for line, comment in entries(text).values():
        usual = re.search(r"; (.*) where left out\n", comment)
        if usual is None:
            if line.startswith(tuple(f"{name} = " for name in kind.example.limits)):
                continue
            said = refusal(without(text, line))
            assert re.search(r"found (\{\}|nothing|neither)$", said), said
        else:
            assert line.endswith(f" = {usual[1]}")
            assert level_of(without(text, line)) == whole


@every_kind
def test_each_key_of_the_kind_is_told_by_its_words_and_range(kind: Kind) -> None:
    found = entries(taken_in(example(kind, ALL), kind))

    for key in kind.keys:
        comment = found[key.path][1]
        assert key.about in comment
        assert f"from {key.low:g} to {key.high:g}" in comment
        assert f'no more than "{key.most}"' in comment or not key.most


@every_kind
def test_every_limit_there_may_be_is_named_with_its_unit_and_can_be_taken_in(kind: Kind) -> None:
    text = example(kind, ALL)
    head, _, limits = text.partition("[limits]\n")

    level = level_of(f"{head}[limits]\n" + re.sub("^# ", "", limits, flags=re.MULTILINE))

    assert set(level.limits) == set(kind.limitable)
    for name in kind.limitable:
        unit = CATALOGUE[name].unit.replace("·", "*")
        said = f"{unit}, {CATALOGUE[name].label}".removeprefix(", ")
        assert re.search(rf"^(# )?{name} = [0-9.]+  # {re.escape(said)}$", limits, re.MULTILINE)


@every_kind
def test_the_example_limits_one_measure_where_any_can_be_and_the_kind_names_none(
    kind: Kind,
) -> None:
    level = level_of(example(kind, ALL))

    assert dict(level.limits) == kind.example.limits or (
        not kind.example.limits and len(level.limits) == bool(kind.limitable)
    )


def test_the_example_of_a_braking_zone_limits_every_part_of_it() -> None:
    level = level_of(example(ZoneDrill(), ALL))

    for part in (OF_THE_SQUEEZE, OF_THE_LINE, OF_THE_CHORDS, OF_THE_THROTTLE, OF_THE_END):
        assert set(part) & set(level.limits)


@every_kind
def test_no_line_of_the_example_is_too_long_to_read(kind: Kind) -> None:
    assert max(map(len, example(kind, ALL).splitlines())) <= 100


@every_kind
def test_the_example_is_ascii_as_shells_write_files_in_encodings_of_their_own(kind: Kind) -> None:
    assert example(kind, ALL).isascii()


def test_a_key_without_default_lies_in_its_range_and_not_above_another() -> None:
    level = level_of(example(MADE_UP, ALL))

    assert level.own == {"few": 2, "many": 2, "lean": 10, "beat.early": 1}
    assert level.listed == {"falls": ()}


def test_a_table_of_the_kind_and_its_keys_are_written_whole() -> None:
    text = example(MADE_UP, ["made-up"])

    assert "\n[beat]\n\n# a number from 0.5 to 2; 1 where left out\nearly = 1\n" in text
    assert (
        "\n# count, few\n"
        '# a whole number from 1 to 9, and no more than "many"\n'
        "few = 2\n\n"
        "# a whole number from 1 to 4\n"
        "many = 2\n"
    ) in text
    assert "[limits]" not in text


def test_a_list_is_a_comment_to_be_taken_in_instead_of_another_key() -> None:
    text = example(MADE_UP, ALL)

    assert (
        "\n# count, falling\n# a list of 1 to 2 falling numbers from 1 to 9\n# falls = [9]\n"
        in text
    )
    assert level_of(taken_in(text, MADE_UP)).listed == {"falls": (9,)}


def test_the_gears_of_an_example_zone_may_be_taken_in_instead_of_its_shifts() -> None:
    zone = KINDS["zone"]
    text = example(zone, ALL)

    level = level_of(without(taken_in(text, zone), "shifts = 3"))

    assert level.listed == {"gears": (195, 160, 125)}
    assert zone.asks(level) == zone.asks(level_of(text))


def test_an_example_of_other_values_says_them_and_names_what_they_are() -> None:
    level = level_of(example(KINDS["zone"], ALL, corner(200.5, 80, 1)))

    assert (level.id, level.title) == ("corner-200-5-80-1", "200.5 to 80, 1 downshift")
    assert level.purpose == "1 downshift from 200.5 km/h to a corner at 80."
    assert (level.own["from"], level.own["to"], level.own["shifts"]) == (200.5, 80, 1)
