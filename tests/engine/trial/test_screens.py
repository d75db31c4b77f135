"""Screens of a trial: typed names, and headings that agree with the figures."""

import numpy as np
import pytest

from drills.deviation import Deviation
from engine.kit.charts_blips import blips_reach
from engine.kit.text_entry import edited
from engine.trial.measure_table import luck_words, written
from engine.trial.outcome import Outcome
from engine.trial.result_screens import Curves, TrialCurves
from engine.trial.status import TrialStatus
from engine.trial.trial import AS_NOW, NAME_MOST, Arm, Ball, Heel, SetUp, differ, with_names
from tests.engine.kit.recording_canvas import said
from tests.engine.trial.pictures import (
    CLEAR,
    EQUAL,
    SPLIT,
    STATUS,
    UNCLEAR,
    A,
    B,
    change_over,
    result,
    trial_screens,
)
from tests.made import level

FLAT = np.zeros(100)


@pytest.mark.parametrize(
    ("typed", "stands"),
    [
        ("toes", "toes"),
        ("to\be\be", "te"),
        ("\b\b", ""),
        ("  toes  ", "toes  "),
        ("a\tb\nc\x1b\x00d\r", "abcd"),
        ("größer ±2", "größer ±2"),
        ("\U0001f9b6toes\u200b", "toes"),
        ("to\u202ees\u2069\u061c\u200f", "toes"),
        ("t" * 99, "t" * NAME_MOST),
    ],
)
def test_typed_text_has_only_letters_that_can_be_seen(typed: str, stands: str) -> None:
    assert edited("", typed, NAME_MOST) == stands


def test_a_full_line_takes_no_more_letters_but_can_be_shortened() -> None:
    full = edited("", "t" * NAME_MOST, NAME_MOST)

    assert edited(full, "x", NAME_MOST) == full
    assert edited(full, "\bx", NAME_MOST) == f"{full[:-1]}x"


def test_set_ups_that_differ_in_a_note_alone_are_the_same() -> None:
    assert not differ(SetUp("", note="one"), SetUp("", note="other"))
    assert differ(SetUp(""), SetUp("", heel=Heel.FLOATING))
    assert differ(SetUp(""), SetUp("new shoes"))
    assert not differ(SetUp("old shoes"), SetUp(""))


def test_a_typed_name_stays_and_a_missing_one_is_made_from_what_differs() -> None:
    a, b = with_names(SetUp("", ball=Ball.TOES), SetUp("my way"))
    only, other = with_names(SetUp(""), SetUp("my way"))

    assert (a.name, b.name) == ("toes", "my way")
    assert (only.name, other.name) == (AS_NOW, "my way")


@pytest.mark.parametrize(
    ("outcome", "heading", "row"),
    [
        (
            CLEAR,
            "B is steadier by 4 points, likely 1 to 7.",
            ("Dip, points", "12", "8", "-4", "-7 to -1", "4 of 100"),
        ),
        (
            UNCLEAR,
            "Cannot tell them apart.",
            ("Dip, points", "11", "12", "+1", "-13 to +14", "47 of 100"),
        ),
        (
            SPLIT,
            "Cannot tell them apart: the blips differed.",
            ("Dip, points", "13", "9", "-4", "-7 to -1", "4 of 100"),
        ),
        (
            EQUAL,
            "No difference you would notice: 2 points at most.",
            ("Dip, points", "8", "8", "0", "-1 to +1", "70 of 100"),
        ),
    ],
)
def test_the_heading_of_a_result_agrees_with_its_figures(
    outcome: Outcome, heading: str, row: tuple[str, ...]
) -> None:
    screen = result(outcome)

    lines, table = (screen.details()[key] for key in ("said", "table"))
    assert isinstance(lines, tuple)
    assert isinstance(table, tuple)
    assert (lines[0], table[0]) == (heading, row)


def test_what_a_screen_says_of_itself_hides_no_field_of_its_event() -> None:
    screens = trial_screens([level()], [picture(9.0)])

    hidden = [
        (name, key)
        for name, screen in screens.items()
        for key in ("t", "event", "name")
        if key in screen.details()
    ]

    assert hidden == []


def test_p_is_given_in_whole_trials_and_never_too_small() -> None:
    assert [luck_words(p) for p in (0.03125, 0.05, 1.0, 0.0001, None)] == [
        *("4 of 100", "5 of 100", "100 of 100", "1 of 100", "-"),
    ]


def test_the_status_counts_whole_pairs() -> None:
    assert [TrialStatus(pairs, 6, 1, 0).words for pairs in (0, 1, 2)] == [
        *("0 of 6 pairs are done", "1 of 6 pairs is done", "2 of 6 pairs are done"),
    ]


def picture(farthest: float) -> Deviation:
    """A curve that goes `farthest` points down."""
    return Deviation(FLAT, np.append(FLAT, -farthest), (-0.5, 1.5))


def test_one_outlier_does_not_change_the_scale_of_the_curves() -> None:
    curves = [picture(14.0)] * 60

    assert blips_reach(curves) == blips_reach([*curves, picture(60.0)]) == 15.0
    assert blips_reach([picture(2.0)]) == blips_reach([]) == 10.0


def test_the_curves_name_each_arm_with_its_own_figures() -> None:
    curves = TrialCurves(written(CLEAR.dip), (Curves("ball", ()), Curves("toes", ())))

    assert curves.heading == "12 points dipped with A, 8 with B."
    assert TrialCurves(written(CLEAR.dip), (Curves("", ()),) * 2, by_days=True).heading == (
        "12 points off with A, 8 with B."
    )


def test_the_large_figure_is_drawn_where_there_is_one() -> None:
    assert {"4", "points steadier"} <= set(said(result(CLEAR)))
    assert "points steadier" not in said(result(UNCLEAR))


def test_the_change_over_shows_the_letter_of_its_set_up() -> None:
    shown = {arm: said(change_over(arm, A, B, STATUS)) for arm in Arm}

    assert [[letter for letter in "AB" if letter in shown[arm]] for arm in Arm] == [["A"], ["B"]]
