"""The shift in runs and under the clutch: order and ties, what is told, and what stays the same."""

from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from itertools import islice

import numpy as np
import pytest

from drills.judging import judge_foot
from drills.kinds import shift_words
from drills.level import Level
from drills.score import Judged, Reason, Verdict
from drills.trace import SECOND, STEP
from engine.drill.verdict_sound import earcon_of
from engine.stage.earcon import Earcon
from tests.drills.kinds.hand_played import hand_played, without_button
from tests.drills.kinds.made import TIME, Made
from tests.drills.kinds.shift_cases import ASKED, LIMIT, Case, in_a_run, under_clutch
from tests.engine.shipped_played import BY_ID

NAMES = ("still-3-dark", "still-2a-squeeze", "blip-3-good", "run-3-even", "ease-5-two")
COUNT = 12

each_case = pytest.mark.parametrize("case", ASKED, ids=[case.name for case in ASKED])


@each_case
def test_the_quiet_line_tells_the_shift_where_nothing_else_does(case: Case) -> None:
    assert shift_words.note(case.made.verdict) == case.note


@each_case
def test_every_press_in_the_picture_is_marked(case: Case) -> None:
    one, picture = case.made, case.made.picture
    shift = one.done.trace.shift
    assert picture is not None
    up = [] if shift is None else np.flatnonzero(np.diff(shift) > 0).tolist()

    expected = [(k + 1) * STEP / SECOND - picture.origin for k in up]

    shown = [at for at in expected if picture.span[0] <= at <= picture.span[1]]
    assert picture.shifts == pytest.approx(shown, abs=1e-9)


@pytest.mark.parametrize(
    ("at", "reason"),
    [
        *((-0.019, Reason.CLEAN), (-0.020, Reason.SHIFT_FIRST), (-0.3, Reason.SHIFT_FIRST)),
        *((0.34, Reason.CLEAN), (0.369, Reason.CLEAN), (0.370, Reason.SHIFT_LAST)),
    ],
)
def test_only_what_is_closer_than_20_ms_is_a_tie(at: float, reason: Reason) -> None:
    # The clutch is up 0.35 s after the blip's onset, which is its peak.
    assert under_clutch(at, limited=False).verdict.reason is reason


@pytest.mark.parametrize(("late", "in_order"), [(31, True), (32, False), (33, False)])
def test_what_is_closer_than_the_reports_of_the_device_is_a_tie(late: int, in_order: bool) -> None:
    swaying = np.where(np.arange(TIME.size) // 32 % 2, 60.1, 60.0)

    first = under_clutch(-late / 1000, brake=swaying, limited=False).verdict.reason
    last = under_clutch(0.35 + late / 1000, brake=swaying, limited=False).verdict.reason

    assert first is (Reason.CLEAN if in_order else Reason.SHIFT_FIRST)
    assert last is (Reason.CLEAN if in_order else Reason.SHIFT_LAST)


def test_without_a_press_the_order_of_clutch_and_blip_alone_counts() -> None:
    pressed_too_late = under_clutch(1.2, limited=False)

    assert under_clutch(limited=False).verdict.reason is Reason.CLEAN
    assert pressed_too_late.verdict.reason is Reason.CLEAN
    assert pressed_too_late.verdict.measures["shift_at"] is None
    assert under_clutch(limited=False, up=0.5).verdict.reason is Reason.CLUTCH_FIRST


@pytest.mark.parametrize(("at", "clean"), [(LIMIT, True), (LIMIT + 0.001, False)])
def test_a_shift_on_its_limit_is_clean(at: float, clean: bool) -> None:
    assert under_clutch(at).verdict.clean == clean
    assert in_a_run((0.0, -at, 0.0)).verdict.clean == clean


def test_a_run_has_each_shift_under_its_place() -> None:
    measures = in_a_run((0.02, 0.1)).verdict.measures

    assert [measures.get(f"shift_at_{place}") for place in (1, 2, 3)] == [0.02, 0.1, None]
    assert "shift_at_3" in measures
    assert "shift_at_4" not in measures


@each_case
def test_a_late_shift_sounds_late_and_one_too_soon_or_missing_does_not(case: Case) -> None:
    one = case.made
    if one.verdict.clean or one.remark.topic not in (
        *("shift_at", Reason.SHIFT_FIRST, Reason.SHIFT_LAST),
    ):
        return

    is_late = "late" in one.remark.sentences[0]

    assert earcon_of(one.level, one.verdict) is (Earcon.LATE if is_late else Earcon.MISSED)
    assert one.level.kind.fault(one.verdict) is None


@pytest.mark.parametrize(
    ("one", "reason"),
    [(under_clutch(-0.08), Reason.SHIFT_FIRST), (under_clutch(0.45), Reason.SHIFT_LAST)],
)
def test_a_shift_out_of_order_has_the_time_from_the_peak_as_its_figure(
    one: Made, reason: Reason
) -> None:
    verdict = one.verdict

    figure = one.figure

    assert verdict.reason is reason
    assert verdict.score == 0
    assert figure is not None
    assert figure.value == f"{abs(verdict.amount('shift_at')):.2f} s"


def test_a_shift_that_decided_is_marked_from_the_peak_of_its_own_blip() -> None:
    one = in_a_run((0.02, 0.21, -0.16))

    assert one.picture is not None
    assert one.picture.timing is not None
    second = one.picture.blips[1][0]
    assert one.picture.timing.begins == pytest.approx(second, abs=1e-9)
    assert one.picture.timing.ends == pytest.approx(second + 0.21, abs=1e-9)


@cache
def played(name: str) -> list[Judged]:
    """Repetitions of a level by a simulated foot and a hand that are no beginners any more."""
    return list(islice(hand_played(BY_ID[name], 0.3, 11), COUNT))


def unshifted(measures: Mapping[str, float | None]) -> dict[str, float | None]:
    """Measures without those of the shift."""
    return {name: value for name, value in measures.items() if not name.startswith("shift_at")}


@pytest.mark.parametrize("name", [*NAMES, "clutch-2-quiet"])
def test_without_a_button_a_verdict_is_the_same_whatever_the_limit_of_the_shift(name: str) -> None:
    level = BY_ID[name]
    limited = replace(level, limits={**level.limits, "shift_at": 0.001})
    if "shift_at" not in level.kind.measures:
        limited = level

    for one in played(name):
        bare = without_button(one.done)
        plain = judge_foot(level, one.task, bare).verdict

        assert judge_foot(limited, one.task, bare).verdict == plain
        assert not [each for each in plain.measures if each.startswith("shift_at")]
        assert shift_words.note(plain) == ""
        _same_but_for_the_shift(level, one, plain)


def _same_but_for_the_shift(level: Level, one: Judged, plain: Verdict) -> None:
    """Check that a button that no limit is about changes nothing but the order of the shift."""
    bound = judge_foot(level, one.task, one.done).verdict
    assert unshifted(bound.measures) == plain.measures
    if bound.reason not in (Reason.SHIFT_FIRST, Reason.SHIFT_LAST):
        assert (bound.reason, bound.score, bound.over) == (plain.reason, plain.score, plain.over)


def test_the_hand_of_the_simulated_foot_has_shifts_of_every_kind() -> None:
    shifts = [
        one.verdict.measures["shift_at"]
        for name in ("run-3-even", "clutch-2-quiet")
        for one in played(name)
        if "shift_at" in one.verdict.measures
    ]

    assert any(time is not None and time > 0 for time in shifts)
    assert len(shifts) > COUNT


@pytest.mark.parametrize("name", NAMES)
def test_a_button_that_is_down_all_along_counts_as_none(name: str) -> None:
    level = BY_ID[name]
    limited = replace(level, limits={**level.limits, "shift_at": 0.001})

    for one in played(name):
        trace = one.done.trace
        stuck = replace(one.done, trace=replace(trace, shift=np.ones(trace.time.size)))
        plain = judge_foot(limited, one.task, without_button(one.done)).verdict

        assert judge_foot(limited, one.task, stuck).verdict == plain
