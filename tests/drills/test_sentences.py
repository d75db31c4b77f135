"""The one sentence after a repetition, word for word, of what was really done in it."""

from dataclasses import replace

import numpy as np
import pytest

from drills.coach import VOID
from drills.kinds import KINDS
from drills.kinds.early import is_early
from drills.level import Level
from drills.score import Reason, Verdict, unjudged
from drills.task import Performance
from drills.trace import STEP, Pedal, nanoseconds
from tests.drills.blip_case import CUE, Case
from tests.drills.sentences import BLIPS
from tests.drills.shapes import Values, trace_of
from tests.made import BLIP_TASK, HOLD, level

HOLD_MS = 4000
LEAD_MS = 500


def sentence_of(asked: Level, verdict: Verdict) -> str:
    """The sentence on a repetition of a level."""
    return asked.kind.sentence(asked, verdict)


def judged(case: Case) -> tuple[Level, Verdict]:
    """What a case asks, and the verdict on it."""
    own = {"least": 30.0, "most": 100.0, "longest": 0.6, "size": 0.0, **case.blip}
    asked = level(limits=case.limits, own={f"blip.{name}": value for name, value in own.items()})
    task = asked.kind.task(asked, 60.0, np.random.default_rng(1))
    done = Performance(trace_of(*case.pedals()), 0, (CUE * STEP,))
    return asked, asked.kind.judge(asked, task, done).verdict


@pytest.mark.parametrize("case", BLIPS, ids=[case.name for case in BLIPS])
def test_a_blip_is_told_by_what_was_done(case: Case) -> None:
    asked, verdict = judged(case)

    assert sentence_of(asked, verdict) == case.said


@pytest.mark.parametrize("case", BLIPS, ids=[case.name for case in BLIPS])
def test_only_a_clean_blip_is_told_as_clean(case: Case) -> None:
    asked, verdict = judged(case)

    assert asked.kind.remark(asked, verdict).topic.endswith(", clean") == verdict.clean
    assert (verdict.score or 0.0) >= 50 or not verdict.clean


def hold_of(brake: Values, **limits: float) -> tuple[Level, Verdict]:
    """A level of 4 s at 60 % with these limits, and the verdict on a brake in its window."""
    asked = replace(HOLD, limits=limits, own={"duration": HOLD_MS / 1000})
    task = asked.kind.task(asked, 60.0, np.random.default_rng(1))
    whole = np.concatenate([np.full(LEAD_MS, 60.0), brake])
    done = Performance(trace_of(whole, np.zeros(whole.size)), 0)
    return asked, asked.kind.judge(asked, task, done).verdict


TIME = np.arange(HOLD_MS) / 1000
WAVE = np.sin(2 * np.pi * 0.5 * TIME)
SHAKE = np.sin(2 * np.pi * 10 * TIME)
UP = TIME / 4 - 0.5

HOLDS = [
    (
        "nothing",
        60 + 0 * TIME,
        "total_error",
        3.0,
        "Still, and right on the target. The same again.",
    ),
    (
        "a little off",
        62 + 0.5 * WAVE,
        "total_error",
        3.0,
        "Near enough, and on the heavy side. Add nothing once it is dark.",
    ),
    (
        "a little about",
        60 + 2 * WAVE,
        "total_error",
        3.0,
        "The brake moved about its target, near enough. Make the weight even quieter.",
    ),
    (
        "a little of both",
        62 + 2 * WAVE,
        "total_error",
        3.0,
        "Near enough, and on the heavy side. Add nothing once it is dark.",
    ),
    (
        "too light",
        55 + WAVE,
        "total_error",
        3.0,
        "The brake sat too light. Remember its weight from before the dark.",
    ),
    (
        "too heavy",
        65 + WAVE,
        "constant_error",
        3.0,
        "Its average was too heavy. Remember its weight from before the dark.",
    ),
    (
        "wandering",
        60 + 6 * WAVE,
        "total_error",
        3.0,
        "The brake wandered about its target. Let the weight rest on the pedal.",
    ),
    (
        "wandering where that is limited",
        61 + 4 * WAVE,
        "variable_error",
        2.0,
        "The brake wandered. Let the weight rest on the pedal.",
    ),
    (
        "creeping up",
        60 + 12 * UP,
        "total_error",
        3.0,
        "The brake kept getting heavier. Make the end as heavy as the start.",
    ),
    (
        "fading",
        60 - 9 * UP,
        "variable_error",
        2.0,
        "The brake kept getting lighter. Make the end as heavy as the start.",
    ),
    (
        "creeping while it wanders more",
        60 + 5 * UP + 4 * WAVE,
        "variable_error",
        2.0,
        "The brake wandered. Let the weight rest on the pedal.",
    ),
    (
        "trembling",
        60 + 2 * SHAKE,
        "tremor",
        1.0,
        "The brake trembled. Let the pedal rest, and let it be.",
    ),
    (
        "swinging",
        60 + 4 * WAVE,
        "swing",
        6.0,
        "The brake moved too far from least to most. Let the weight rest on the pedal.",
    ),
    (
        "let go",
        np.where(TIME < 3, 60.0, 0.0),
        "total_error",
        3.0,
        "The brake was let go in the dark. Keep the weight on until the light returns.",
    ),
]


@pytest.mark.parametrize(
    ("brake", "limited", "limit", "said"), [row[1:] for row in HOLDS], ids=[row[0] for row in HOLDS]
)
def test_a_hold_is_told_by_what_moved_it_most(
    brake: Values, limited: str, limit: float, said: str
) -> None:
    asked, verdict = hold_of(brake, **{limited: limit})

    assert sentence_of(asked, verdict) == said


def early(seconds: float) -> Verdict:
    """The verdict where the throttle came so long before the cue was due."""
    due = BLIP_TASK.steady + BLIP_TASK.wait
    points = round((due - seconds) * 1000) + 1
    trace = trace_of(np.full(points, 60.0), np.zeros(points))
    done = Performance(trace, nanoseconds(BLIP_TASK.steady))
    return unjudged(Reason.ANTICIPATION, BLIP_TASK, done).verdict


@pytest.mark.parametrize(
    ("verdict", "said"),
    [
        (early(0.4), "The throttle came 0.4 s before the cue. Wait for the cue."),
        (early(0.02), "The throttle came just before the cue. Wait for the cue."),
        (
            Verdict(Reason.ANTICIPATION, measures={"reaction": 0.07}),
            "The throttle came too soon to answer the cue. Wait for the cue.",
        ),
        (
            Verdict(Reason.ANTICIPATION),
            "The throttle came too soon to answer the cue. Wait for the cue.",
        ),
        (
            Verdict(Reason.NO_TARGET),
            "The pedals never came to rest at the start. Bring them there, then keep still.",
        ),
        (
            Verdict(Reason.GAP),
            "The pedals could not be read for a moment. Play it again.",
        ),
        (Verdict(Reason.UNPLUGGED), "The pedals were unplugged. Plug them in again."),
        (Verdict(Reason.FOCUS_LOST), "Another window came to the front. Come back to this one."),
        (Verdict(Reason.LEFT), "You left before the cue. Wait for the cue next time."),
        (
            Verdict(Reason.SELDOM),
            "The pedals report too seldom to judge this. Try another USB port.",
        ),
        (
            Verdict(Reason.AT_END, pedal=Pedal.BRAKE),
            "The brake is at the end of its scale. Set up the pedals once more.",
        ),
        (
            Verdict(Reason.NOT_MOVED, pedal=Pedal.BRAKE),
            "The brake stayed on one value, stiller than any foot. Check its cable.",
        ),
        (
            Verdict(Reason.STALLED, pedal=Pedal.THROTTLE),
            "The throttle stopped reporting for a moment. Give the pedals a USB port of their own.",
        ),
        (
            Verdict(Reason.JUMPED, pedal=Pedal.BRAKE),
            "The brake jumped faster than any foot. Check its cable.",
        ),
        (
            Verdict(Reason.WALKED_OUT, 0.0),
            "You left before the end, so it is not clean. See it through next time.",
        ),
        (
            Verdict(Reason.NOT_SCORED, 0.0),
            "Too little brake was held before the blip. Hold the brake, then wait for the cue.",
        ),
    ],
)
def test_a_repetition_that_was_not_measured_is_told_why(verdict: Verdict, said: str) -> None:
    assert sentence_of(level(), verdict) == said


def test_every_measure_that_a_level_may_limit_has_its_sentence() -> None:
    for name, limits in (("blip", BLIPS[0].limits), ("hold", {"total_error": 3.0})):
        kind = KINDS[name]
        asked = replace(level() if name == "blip" else HOLD, limits=limits)
        for measure in kind.limitable:
            one = replace(asked, limits={measure: 1.0})
            measures = {**dict.fromkeys(kind.measures, 0.0), measure: 9.0}

            said = sentence_of(one, Verdict(Reason.OVER_LIMIT, 0.2, (measure,), measures, measure))

            assert said.endswith(".")
            assert 20 < len(said) < 110


def test_every_void_ending_has_its_sentence() -> None:
    void = {reason for reason in Reason if reason.void}

    assert set(VOID) == void - {Reason.ANTICIPATION, Reason.OFF_SIZE}


@pytest.mark.parametrize(
    ("lead", "early"), [(None, False), (0.1, False), (0.103, True), (0.357, True)]
)
def test_an_early_roll_is_a_brake_that_left_well_before_the_throttle(
    lead: float | None, early: bool
) -> None:
    measures = {"dip": 20.0, "dip_at": 0.05, "onset": 1.0, "end": 1.2, "lead": lead}

    assert is_early(Verdict(Reason.CLEAN, 80.0, measures=measures)) == early
