"""What the drill kinds ask, and their verdicts on what was done."""

from dataclasses import replace

import numpy as np
import pytest

from drills.kinds import KINDS
from drills.level import Level
from drills.measures.catalogue import CATALOGUE
from drills.score import Reason, Verdict
from drills.task import Move, Performance
from drills.trace import STEP, Pedal, Trace
from tests.drills.shapes import Values, trace_of
from tests.made import HOLD as A_HOLD
from tests.made import level

BLIP = level(limits={"dip": 15.0, "settle": 0.6})
HOLD = replace(A_HOLD, limits={"constant_error": 2.0, "variable_error": 2.0})
CUE = 2000  # ms on the grid


def blipped(reaction: int = 250, dip: float = 0.0, extra: bool = False) -> tuple[Values, Values]:
    """Brake and throttle of a blip `reaction` ms after the cue that dips for 0.2 s."""
    brake, throttle = np.full(6000, 60.0), np.zeros(6000)
    onset = CUE + reaction
    throttle[onset : onset + 200] = 70
    brake[onset : onset + 200] -= dip
    if extra:
        throttle[onset + 600 : onset + 800] = 70
    return brake, throttle


def judged(brake: Values, throttle: Values, asked: Level = BLIP, cue: int = CUE * STEP) -> Verdict:
    """The verdict on a blip."""
    kind = KINDS["blip"]
    task = kind.task(asked, 60.0, np.random.default_rng(1))
    return kind.judge(asked, task, Performance(trace_of(brake, throttle), 0, (cue,))).verdict


def held(brake: Values) -> Verdict:
    """The verdict on a hold that goes dark half a second in."""
    task = KINDS["hold"].task(HOLD, 60.0, np.random.default_rng(1))
    trace = trace_of(brake, np.zeros(brake.size))
    return KINDS["hold"].judge(HOLD, task, Performance(trace, 500 * STEP)).verdict


def test_a_blip_within_its_limits_is_clean_and_has_every_measure() -> None:
    verdict = judged(*blipped(dip=15))

    assert verdict.reason is Reason.CLEAN
    assert tuple(verdict.measures) == KINDS["blip"].measures
    assert verdict.measures["dip"] == 15
    assert verdict.measures["settle"] == 0.2
    assert verdict.measures["reaction"] == 0.25
    assert verdict.measures["onset"] == 2.25
    assert verdict.measures["base_error"] == 0
    assert verdict.worst == "dip"
    assert verdict.score == 50


def test_a_blip_past_a_limit_is_over_it() -> None:
    verdict = judged(*blipped(dip=15.1))

    assert (verdict.reason, verdict.over) == (Reason.OVER_LIMIT, ("dip",))


def test_a_repetition_without_a_blip_counts_and_is_worth_nothing() -> None:
    verdict = judged(np.full(6000, 60.0), np.zeros(6000))

    assert verdict == Verdict(Reason.NO_BLIP, 0.0)
    assert not verdict.void


def test_a_second_blip_is_not_clean_and_is_measured_with_the_first() -> None:
    verdict = judged(*blipped(extra=True))

    assert verdict.reason is Reason.EXTRA_BLIP
    assert verdict.over == ()
    assert verdict.score == 0


@pytest.mark.parametrize(
    ("held", "reason"),
    [
        (65.0, Reason.CLEAN),
        (65.1, Reason.OFF_TARGET),
        (54.9, Reason.OFF_TARGET),
        (4.9, Reason.LET_GO),
    ],
)
def test_a_brake_that_left_the_target_in_the_dark_is_not_what_was_asked(
    held: float, reason: Reason
) -> None:
    brake, throttle = blipped()

    verdict = judged(np.full(brake.size, held), throttle)

    assert verdict.reason is reason
    assert verdict.measures["base_error"] == pytest.approx(held - 60)


@pytest.mark.parametrize(
    ("peak", "reason"),
    [
        (14.9, Reason.LIGHT),
        (29.9, Reason.LIGHT),
        (30.0, Reason.CLEAN),
        (80.0, Reason.CLEAN),
        (80.1, Reason.HEAVY),
        (9.9, Reason.NO_BLIP),
    ],
)
def test_a_blip_is_as_big_as_the_level_asks(peak: float, reason: Reason) -> None:
    brake, throttle = blipped()
    asked = replace(BLIP, own={**BLIP.own, "blip.most": 80.0})

    verdict = judged(brake, throttle * peak / 70, asked)

    assert verdict.reason is reason


@pytest.mark.parametrize(("longest", "reason"), [(0.2, Reason.CLEAN), (0.199, Reason.LONG)])
def test_a_blip_is_no_longer_than_the_level_asks(longest: float, reason: Reason) -> None:
    asked = replace(BLIP, own={**BLIP.own, "blip.longest": longest})

    assert judged(*blipped(), asked).reason is reason


@pytest.mark.parametrize(("reaction", "reason"), [(1000, Reason.CLEAN), (1001, Reason.LATE)])
def test_a_blip_begins_within_a_second_of_its_cue(reaction: int, reason: Reason) -> None:
    assert judged(*blipped(reaction=reaction)).reason is reason


@pytest.mark.parametrize(
    ("at", "reason"), [(100, Reason.OVER_LIMIT), (300, Reason.LET_GO), (1300, Reason.CLEAN)]
)
def test_a_brake_let_go_after_the_blip_is_another_thing_than_a_dip(at: int, reason: Reason) -> None:
    brake, throttle = blipped()
    brake[CUE + 250 + at :] = 0.0

    assert judged(brake, throttle).reason is reason


@pytest.mark.parametrize(
    ("reaction", "reason"),
    [(99, Reason.ANTICIPATION), (100, Reason.CLEAN), (-50, Reason.ANTICIPATION)],
)
def test_a_reaction_under_a_tenth_of_a_second_is_an_anticipation(
    reaction: int, reason: Reason
) -> None:
    # Under 0.100 s is a false start: 0.099 is an anticipation, 0.100 is not (World Athletics
    # Technical Rules 16.6, read).
    verdict = judged(*blipped(reaction=reaction))

    assert verdict.reason is reason
    assert verdict.void == (reason is Reason.ANTICIPATION)
    assert verdict.measures["reaction"] == pytest.approx(reaction / 1000)


@pytest.mark.parametrize(("late", "reason"), [(0, Reason.CLEAN), (1, Reason.ANTICIPATION)])
def test_an_anticipation_is_told_to_the_nanosecond(late: int, reason: Reason) -> None:
    verdict = judged(*blipped(reaction=100), cue=CUE * STEP + late)

    assert verdict.reason is reason


def test_a_foot_that_leaves_the_brake_once_it_may_answer_dips_and_is_not_off_target() -> None:
    brake, throttle = blipped(reaction=600)
    brake[CUE + 100 : CUE + 800] = 40

    verdict = judged(brake, throttle)

    assert verdict.reason is Reason.OVER_LIMIT
    assert (verdict.measures["base"], verdict.measures["dip"]) == (60, 20)
    assert verdict.measures["lead"] == pytest.approx(0.5)


@pytest.mark.parametrize(("missing", "reason"), [(0, Reason.CLEAN), (1, Reason.NOT_SCORED)])
def test_a_blip_needs_a_tenth_of_a_second_of_held_brake_before_it_could_answer(
    missing: int, reason: Reason
) -> None:
    brake, throttle = (pedal[CUE + missing :] for pedal in blipped())

    verdict = judged(brake, throttle, cue=-missing * STEP)

    assert verdict.reason is reason
    assert reason is Reason.CLEAN or verdict == Verdict(Reason.NOT_SCORED, 0.0)


def test_the_band_of_the_level_decides_what_is_settled() -> None:
    brake, throttle = blipped(dip=4)

    wide, narrow = (
        judged(brake, throttle, replace(BLIP, band=band)).measures["settle"] for band in (4.0, 3.9)
    )

    assert (wide, narrow) == (0, 0.2)


def test_a_blip_is_asked_after_a_wait_drawn_by_chance_and_awaited_on_and_off() -> None:
    rng = np.random.default_rng(1)

    tasks = [KINDS["blip"].task(BLIP, 60.0, rng) for _ in range(50)]

    assert len({task.wait for task in tasks}) == 50
    assert all(1 <= task.wait <= 7 for task in tasks)
    task = tasks[0]
    assert (task.target, task.cues, task.lasts, task.tail) == (60.0, (0.0,), 0.0, 1.1)
    assert task.start[Pedal.BRAKE] == (55.0, 65.0)
    assert task.early == {Pedal.THROTTLE: 10.0}
    assert task.moves == (
        Move(Pedal.THROTTLE, 10.0, up=True, within=1.5, cue=0),
        Move(Pedal.THROTTLE, 5.0, up=False, within=1.0),
    )


@pytest.mark.parametrize(("throttle", "inside"), [(-3.0, True), (4.999, True), (5.0, False)])
def test_a_throttle_at_rest_is_under_five_percent(throttle: float, inside: bool) -> None:
    task = KINDS["blip"].task(BLIP, 60.0, np.random.default_rng(1))

    low, high = task.start[Pedal.THROTTLE]

    assert (low <= throttle <= high) == inside


def test_a_hold_is_measured_from_half_a_second_into_the_dark_for_its_duration() -> None:
    task = KINDS["hold"].task(HOLD, 45.0, np.random.default_rng(1))

    assert (task.target, task.wait, task.lasts, task.tail) == (45.0, 0.5, 2.0, 0.0)
    assert task.start == {Pedal.BRAKE: (40.0, 50.0)}
    assert (task.cues, task.moves) == ((), ())


def test_a_hold_counts_only_what_lies_in_its_window() -> None:
    brake = np.full(4000, 20.0)
    brake[1000:3000] = 61

    verdict = held(brake)

    assert verdict.reason is Reason.CLEAN
    assert tuple(verdict.measures) == KINDS["hold"].measures
    assert (verdict.measures["mean"], verdict.measures["swing"]) == (61, 0)
    assert verdict.score == pytest.approx(100 * 2**-0.5)


@pytest.mark.parametrize("bias", [2.1, -2.1])
def test_a_hold_too_heavy_or_too_light_is_over_its_limit(bias: float) -> None:
    verdict = held(np.full(4000, 60.0 + bias))

    assert (verdict.reason, verdict.over) == (Reason.OVER_LIMIT, ("constant_error",))


def test_a_hold_on_a_trace_that_began_long_ago_is_measured_the_same() -> None:
    brake = 60 + np.sin(np.arange(4000) / 100)
    shift = 86_400 * 10**9
    trace = trace_of(brake, np.zeros(4000))
    later = Trace(trace.time + shift, trace.brake, trace.throttle)
    task = KINDS["hold"].task(HOLD, 60.0, np.random.default_rng(1))

    verdict = KINDS["hold"].judge(HOLD, task, Performance(later, shift + 500 * STEP)).verdict

    assert verdict == held(brake)


@pytest.mark.parametrize("name", list(KINDS))
def test_a_kind_speaks_only_of_measures_that_are_in_the_catalogue(name: str) -> None:
    kind = KINDS[name]

    assert kind.name == name
    assert set(kind.reveal_measures) <= set(kind.measures) <= set(CATALOGUE)
    assert bool(kind.limitable) == bool(kind.measures) == (kind.name != "mixed")
    assert all(CATALOGUE[one].less_is_better for one in kind.limitable)
