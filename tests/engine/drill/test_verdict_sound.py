"""The sound of a verdict says what its sentence and bubble say, and only where the level tells."""

import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import islice

import numpy as np
import pytest

from drills.level import Feedback, Level
from drills.measures.catalogue import PLACES
from drills.phases import Phase
from drills.repetition import Repetition
from drills.score import OF_THE_PEDALS, Reason, Verdict, weigh
from drills.trace import nanoseconds
from engine.drill.attempt import Attempt
from engine.drill.set_log import SetLog
from engine.drill.verdict_sound import earcon_of, sound_verdict
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from engine.pedals.moved_ends import LastingEnds
from engine.stage.actions import Action
from engine.stage.earcon import Earcon
from engine.stage.headless import ManualClock
from engine.stage.replay_wave import ear_wave
from engine.stage.signals import Signals, Volume
from engine.stage.waves import Wave
from engine.store import History
from tests.coarse_clock import READ_EACH
from tests.drills.kinds.agreement import leaning_of
from tests.engine.drill.sets import SHORT, SetPlayer
from tests.engine.shipped_played import BY_ID, shipped_repetitions
from tests.fakes import MILLISECOND, Steady, Stuttering
from tests.loudspeaker import Loudspeaker
from tests.made import BLIP, HOLD_TASK
from tests.simulated_repetitions import repetitions

LEVELS = [level for level in (*load_levels([SHIPPED]), load_band()) if level.kind.name != "mixed"]
SIGNED = (
    *("offset", "base_error", "constant_error", "drift", "coupling", "lateness", "shift_at"),
    *("brake_on", "peak_error", "line_worst", "off_at"),
)
NOT_MEASURED = ("settle", "rise", "release_time", "release_start", "clutch_down", "clutch_up")
SAYS_LATE = re.compile(
    r"\blate\b|slow to (follow|settle|go down|come up)|too long (to settle|for )|slower than"
    r"|too late|stayed down after|long gone|took too long|too much time|fell before the brake"
    r"|ahead of the \w+ blip|made the shift late"
)
OUTCOMES = [
    *(Reason.NO_BLIP, Reason.EXTRA_BLIP, Reason.LATE, Reason.LIGHT, Reason.HEAVY, Reason.LONG),
    *(Reason.OFF_TARGET, Reason.LET_GO, Reason.FEW_BLIPS, Reason.OFF_BEAT, Reason.CUT_SHORT),
    *(Reason.NOT_PRESSED, Reason.NOT_EASED, Reason.NO_CLUTCH, Reason.BLIP_FIRST),
    *(Reason.CLUTCH_FIRST, Reason.CLUTCH_STAYED, Reason.SHIFT_FIRST, Reason.SHIFT_LAST),
    Reason.NOT_SCORED,
]
OUTCOMES_OF = {
    "hold": {Reason.LET_GO},
    "squeeze": {Reason.NOT_PRESSED},
    "blip": {*OUTCOMES[:8], Reason.NOT_SCORED},
    "counting": {*OUTCOMES[:8], Reason.NOT_SCORED},
    "clutch": {*OUTCOMES[:8], *OUTCOMES[13:]},
    "run": {*OUTCOMES[:2], *OUTCOMES[3:10], Reason.NOT_SCORED},
    "zone": {
        *(*OUTCOMES[:2], *OUTCOMES[3:6], *OUTCOMES[7:12], *OUTCOMES[13:]),
    },
    "trail": {*OUTCOMES[:2], *OUTCOMES[3:9], Reason.CUT_SHORT, Reason.NOT_EASED},
}
"""Outcomes, beside the limits, of the repetitions of each kind that count."""


def judged(level: Level) -> Iterator[tuple[Level, Verdict]]:
    """A verdict for each outcome and each measure of the kind of a level, each with its level."""
    measured = {"base": 60.0, "base_error": -9.0}
    for reason in OUTCOMES:
        if reason in OUTCOMES_OF[level.kind.name]:
            yield level, Verdict(reason, 0.0, measures=measured)
    for name in level.kind.limitable:
        values = (20.0, -20.0) if name in SIGNED else (20.0, None) if name in NOT_MEASURED else None
        for value in values or (20.0,):
            limited = replace(level, limits={"settle": 0.7, name: 5.0})
            measures = measured | {"settle": 0.1, name: value}
            if name in ("lateness", "dip"):
                measures[f"{name}_1"] = value
            verdict = weigh(measures, limited.limits)
            if verdict.worst == name:
                yield limited, verdict


@pytest.mark.parametrize("level", LEVELS[::3] + LEVELS[-1:], ids=lambda level: level.id)
def test_sound_sentence_and_bubble_say_the_same_of_every_topic(level: Level) -> None:
    found = list(judged(level))

    for limited, verdict in found:
        _agree(limited, verdict)
    assert len({level.kind.remark(one, verdict).topic for one, verdict in found}) > 1


@pytest.mark.parametrize("places", [(0.0, 0.2), (0.2, 0.0), (0.0, 0.1, 0.2), (0.2, 0.1, 0.0)])
def test_blips_that_fell_behind_their_beat_sound_late_and_others_do_not(
    places: tuple[float, ...],
) -> None:
    level = next(level for level in LEVELS if level.kind.name == "run")
    level = replace(level, limits={"spacing_error": 0.05})
    late = {f"lateness_{place}": one for place, one in zip(PLACES, places, strict=False)}

    verdict = weigh({"spacing_error": 0.1, **late}, level.limits)

    _agree(level, verdict)
    behind = places[-1] > places[0]
    assert earcon_of(level, verdict) is (Earcon.LATE if behind else Earcon.MISSED)


def _agree(level: Level, verdict: Verdict) -> None:
    """Check that sound, sentence and bubble of a verdict say the same."""
    said, sound = level.kind.remark(level, verdict).sentence(), earcon_of(level, verdict)
    leans, bubble = leaning_of(said), level.kind.lean(level, verdict)
    sides = {Earcon.DIP: -1, Earcon.SURGE: 1}
    if verdict.reason is Reason.NOT_PRESSED:
        assert sound is Earcon.MISSED
        return
    assert (bubble or 0) == leans, said
    assert sides.get(sound, 0) == leans, (said, sound)
    if sound in (Earcon.LATE, Earcon.MISSED):
        assert (sound is Earcon.LATE) == bool(SAYS_LATE.search(said)), (said, sound)


@pytest.mark.parametrize("name", ["still-3-dark", "blip-3-good", "run-3-even", "ease-5-two"])
def test_repetitions_of_a_foot_sound_as_their_sentences_say(name: str) -> None:
    level = next(level for level in LEVELS if level.id == name)
    verdicts = [one.verdict for one in islice(repetitions(level, 0.25, 23, step=READ_EACH), 8)]

    missed = [verdict for verdict in verdicts if not verdict.clean and not verdict.void]

    assert missed
    for verdict in missed:
        _agree(level, verdict)


@pytest.mark.parametrize("reason", [Reason.ANTICIPATION, Reason.GAP, *sorted(OF_THE_PEDALS)])
def test_a_repetition_that_could_not_be_judged_knocks(reason: Reason) -> None:
    for level in LEVELS[::5]:
        assert earcon_of(level, Verdict(reason)) is Earcon.VOID


def heard(feedback: Feedback, brake: float, history: History, *, ear: bool = False) -> list[str]:
    """Sounds after the repetitions of a short set, held at a brake in %."""
    clock = ManualClock()
    session = SetPlayer(Steady(clock, brake / 100), clock, history)
    session.stage.tune(Signals(ear=ear))
    session.walk(replace(SHORT, feedback=feedback))
    speaker = session.stage.speaker
    assert isinstance(speaker, Loudspeaker)
    return [sound for sound in speaker.heard if not sound.startswith(("tone", "click"))]


@pytest.mark.parametrize("feedback", [Feedback.EVERY, Feedback.OUTSIDE])
@pytest.mark.parametrize("ear", [False, True])
def test_a_verdict_sounds_where_the_level_tells_at_once_after_its_curve_if_asked_for(
    history: History, feedback: Feedback, ear: bool
) -> None:
    clean, heavy = (heard(feedback, brake, history, ear=ear) for brake in (60.0, 64.5))

    before = ["ear 0.6"] if ear else []
    # Feedback outside a limit shows nothing of a clean repetition, so its curve is not heard.
    first = before if feedback is Feedback.EVERY else []
    assert clean == [*first, "step 1", *first, "step 2"]
    assert heavy == 2 * [*before, "surge"]


@pytest.mark.parametrize("feedback", [Feedback.SUMMARY, Feedback.NONE])
@pytest.mark.parametrize("brake", [60.0, 64.5])
def test_a_level_that_withholds_its_verdict_is_silent_by_ear_too(
    history: History, feedback: Feedback, brake: float
) -> None:
    assert heard(feedback, brake, history, ear=True) == []


@pytest.mark.parametrize(
    ("feedback", "reveals", "sounds"),
    [(Feedback.EVERY, 3, ["void", "step 1", "step 2"]), (Feedback.NONE, 1, [])],
)
def test_a_void_repetition_knocks_only_where_the_level_tells_at_once(
    history: History, feedback: Feedback, reveals: int, sounds: list[str]
) -> None:
    clock = ManualClock()
    source = Stuttering(Steady(clock, 0.6), clock, nanoseconds(1.5), stall=60 * MILLISECOND)
    session = SetPlayer(source, clock, history)
    session.stage.tune(Signals(ear=True))

    session.walk(replace(SHORT, feedback=feedback), *[("reveal", "on")] * reveals)

    speaker = session.stage.speaker
    assert isinstance(speaker, Loudspeaker)
    assert [one for one in speaker.heard if not one.startswith(("tone", "click", "ear"))] == sounds
    assert speaker.heard.count("ear 0.6") == sum(one != "void" for one in sounds)


def test_a_repetition_that_was_left_is_silent_as_it_has_no_reveal(history: History) -> None:
    session = SetPlayer(Steady(clock := ManualClock(), 0.6), clock, history)
    play = session.set_of(replace(BLIP, repetitions=2, feedback=Feedback.EVERY))
    scene = next(play)
    while not any(one.phase is Phase.ACT for one in session.audience.transitions):
        clock.advance(READ_EACH)
        scene.screen.on_sample(scene.rig.sample(), clock())

    scene.screen.on_action(Action.BACK)
    next(play)

    [(_, record)] = session.audience.records
    speaker = session.stage.speaker
    assert isinstance(speaker, Loudspeaker)
    assert record.verdict.reason is Reason.WALKED_OUT
    assert {one.partition(" ")[0] for one in speaker.heard} <= {"tone", "click"}


class Ear(Loudspeaker):
    """Speaker that keeps the brake that it was asked to play before a verdict."""

    brake: Wave | None = None

    def play(self, earcon: Earcon, after: Wave | None = None) -> None:
        """Keep the brake."""
        self.brake = after


def test_by_ear_wander_is_heard_about_its_average_as_its_reveal_draws_it() -> None:
    [shown] = shipped_repetitions("still-2-firm", 0.05, 7, 1)
    picture, speaker, level = shown.deviation, Ear(), BY_ID["still-2-firm"]
    assert picture is not None
    assert picture.average is not None
    assert abs(picture.average.middle) > 5
    speaker.tune(Volume.LOUD, click=True, ear=True)
    attempt = Attempt(level, Repetition(HOLD_TASK, 0), shown.record, picture, False, LastingEnds())

    sound_verdict(attempt, SetLog(level, None), speaker)

    wander = picture.deviation - picture.average.middle
    assert speaker.brake is not None
    assert np.array_equal(speaker.brake, ear_wave(picture.time, wander))
