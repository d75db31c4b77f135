"""The one sentence after a repetition, word for word, of what was really done in it."""

from dataclasses import replace

import numpy as np
import pytest

from drills.coach import NOT_COUNTED, lead_words
from drills.kinds import KINDS
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
def test_a_sentence_praises_what_is_clean_and_nothing_else(case: Case) -> None:
    _, verdict = judged(case)

    assert case.said.startswith(("Clean: ", "Still: ")) == verdict.clean
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
    ("nothing", 60 + 0 * TIME, "total_error", 3.0, "Still, and right on the target."),
    (
        "a little off",
        62 + 0.5 * WAVE,
        "total_error",
        3.0,
        "Still: the brake hardly moved from where you put it.",
    ),
    (
        "a little about",
        60 + 2 * WAVE,
        "total_error",
        3.0,
        "On the target: the brake stayed about it all through.",
    ),
    (
        "a little of both",
        62 + 2 * WAVE,
        "total_error",
        3.0,
        "Clean: the brake stayed close enough to the target all through.",
    ),
    (
        "too light",
        55 + WAVE,
        "total_error",
        3.0,
        "The brake sat lighter than the target: remember its weight from before the dark.",
    ),
    (
        "too heavy",
        65 + WAVE,
        "constant_error",
        3.0,
        "The brake sat heavier than the target: remember its weight from before the dark.",
    ),
    (
        "wandering",
        60 + 6 * WAVE,
        "total_error",
        3.0,
        "The brake wandered about: let the weight of the leg hold it, not the ankle.",
    ),
    (
        "wandering where that is limited",
        61 + 4 * WAVE,
        "variable_error",
        2.0,
        "The brake wandered about: let the weight of the leg hold it, not the ankle.",
    ),
    (
        "creeping up",
        60 + 12 * UP,
        "total_error",
        3.0,
        "The foot kept pressing harder, 12 points in all: "
        "take a breath, then feel for the weight, not the place.",
    ),
    (
        "fading",
        60 - 9 * UP,
        "variable_error",
        2.0,
        "The foot kept easing off, 9 points in all: "
        "take a breath, then feel for the weight, not the place.",
    ),
    (
        "creeping while it wanders more",
        60 + 5 * UP + 4 * WAVE,
        "variable_error",
        2.0,
        "The brake wandered about: let the weight of the leg hold it, not the ankle.",
    ),
    (
        "trembling",
        60 + 2 * SHAKE,
        "tremor",
        1.0,
        "The foot trembled: press with the leg at ease.",
    ),
    (
        "swinging",
        60 + 4 * WAVE,
        "swing",
        6.0,
        "The brake moved 8 points from least to most: let the leg rest on it.",
    ),
    (
        "let go",
        np.where(TIME < 3, 60.0, 0.0),
        "total_error",
        3.0,
        "The brake was let go in the dark: keep the weight on until the light comes back.",
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
        (early(0.4), "The throttle came 0.4 s before the cue: wait for it."),
        (early(0.02), "The throttle came just before the cue: wait for it."),
        (
            Verdict(Reason.ANTICIPATION, measures={"reaction": 0.07}),
            "The throttle came with the cue, too soon to be an answer to it: wait for it.",
        ),
        (
            Verdict(Reason.ANTICIPATION),
            "The throttle came before the cue could be answered: wait for it.",
        ),
        (
            Verdict(Reason.NO_TARGET),
            "The pedals never came to rest where this begins, so nothing was measured.",
        ),
        (
            Verdict(Reason.GAP),
            "The pedals could not be read for a moment, so this cannot be judged.",
        ),
        (Verdict(Reason.UNPLUGGED), "The pedals were unplugged."),
        (Verdict(Reason.FOCUS_LOST), "The window lost the focus."),
        (Verdict(Reason.LEFT), "You left before the cue."),
        (
            Verdict(Reason.SELDOM),
            "The pedals report too seldom to judge this: try another USB port.",
        ),
        (
            Verdict(Reason.AT_END, pedal=Pedal.BRAKE),
            "The brake is at the end of its scale: set up the pedals anew.",
        ),
        (
            Verdict(Reason.NOT_MOVED, pedal=Pedal.BRAKE),
            "The brake stayed on one value, stiller than any foot: check its cable.",
        ),
        (
            Verdict(Reason.STALLED, pedal=Pedal.THROTTLE),
            "The throttle stopped reporting for a moment: give the pedals a USB port of their own.",
        ),
        (
            Verdict(Reason.JUMPED, pedal=Pedal.BRAKE),
            "The brake jumped to and fro faster than any foot: check its cable.",
        ),
        (
            Verdict(Reason.WALKED_OUT, 0.0),
            "You left before the end, so it counts as not clean.",
        ),
        (
            Verdict(Reason.NOT_SCORED, 0.0),
            "There was too little held brake before the blip to measure it against.",
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
            assert 20 < len(said) < 150


def test_every_void_ending_has_its_sentence() -> None:
    void = {reason for reason in Reason if reason.void}

    assert set(NOT_COUNTED) == void - {Reason.ANTICIPATION, Reason.OFF_SIZE}


@pytest.mark.parametrize(
    ("lead", "words"),
    [(None, ""), (0.1, ""), (0.103, "0.10 s"), (0.144, "0.15 s"), (0.357, "0.35 s")],
)
def test_an_early_roll_is_told_no_finer_than_pedals_report(lead: float | None, words: str) -> None:
    measures = {"dip": 20.0, "dip_at": 0.05, "onset": 1.0, "end": 1.2, "lead": lead}

    assert lead_words(Verdict(Reason.CLEAN, 80.0, measures=measures)) == words
