"""The second task in a set: asked after its repetitions alone, and judged before all is stored."""

from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime

import numpy as np
import pytest

from drills.foot import SimulatedFoot
from drills.level import Feedback, Level
from drills.score import Reason, Verdict
from drills.task import Knock
from engine.drill.attempt import Setting
from engine.drill.count_screen import CountAnswer
from engine.drill.second_task import answered
from engine.drill.set import Played, run_set
from engine.kit.base import Place
from engine.ladder.level_files import SHIPPED, load_levels
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Means, Rig
from engine.pedals.simulated import SIMULATED_TRAVEL, SimulatedPedals
from engine.practice.passes import required
from engine.stage.actions import Action
from engine.stage.headless import ManualClock, run_headless
from engine.stage.scene import Attended
from engine.stage.speaker import Silence
from engine.store import History
from engine.store.repetitions import measures_of
from tests.engine.kit.recording_canvas import said
from tests.engine.walking import Step, walk
from tests.fakes import a_stage
from tests.loudspeaker import Loudspeaker

DATE = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)
LEVELS = {level.id: level for level in load_levels([SHIPPED])}
EASY = replace(LEVELS["count-1-easy"], feedback=Feedback.NONE)


class Listening(SimulatedPedals):
    """A simulated foot whose repetitions count, as a player's do."""

    counts = True
    high = 0
    """High knocks of the newest repetition that it was told of, as a count."""

    def on_menu(self) -> None:
        """Keep what was heard."""
        self.high = self._heard or 0
        super().on_menu()


class Table:
    """Everything that a set is played with, with a speaker that records."""

    def __init__(self, history: History | None = None, seed: int = 1) -> None:
        self.clock = ManualClock()
        self.foot = Listening(SimulatedFoot(1.0, 4), self.clock, "")
        self.stage = a_stage(self.foot)
        rig = Rig(self.clock, pedals=CalibratedPedals(self.foot, SIMULATED_TRAVEL))
        rng = np.random.default_rng(seed)
        levels = list(LEVELS.values())
        self.setting = Setting(rig, self.stage, history, rng, lambda: DATE, levels=levels)
        self.seen: list[str] = []

    def says(self, off: int) -> Step:
        """Step that answers with a number off the one that was heard."""

        def step(screen: Attended) -> None:
            self.foot.on_menu()
            for _ in range(self.foot.high + off):
                screen.on_action(Action.NEXT)
            screen.on_action(Action.GO)

        return step

    def walk(self, repetitions: int, *steps: tuple[str, Step], level: Level = EASY) -> Played:
        """A set in which each step is taken on its screen."""
        return walk(run_set(level, self.setting, repetitions), self.clock, steps, self.seen)


def acts(*actions: Action) -> Callable[[Attended], None]:
    """Step that does these actions on a screen."""

    def step(screen: Attended) -> None:
        for action in actions:
            screen.on_action(action)

    return step


def test_half_of_a_set_is_counted_and_answered_by_the_pedals_themselves() -> None:
    table = Table()

    records = run_headless(run_set(EASY, table.setting, 10), table.clock).log.counting

    answers = [record.verdict.measures for record in records]
    counting = [measures for measures in answers if "knocks" in measures]
    assert len(records) == 10
    assert len(counting) == 5
    assert all(measures["knocks"] == measures["counted"] for measures in counting)
    assert not any("counted" in measures for measures in answers if "knocks" not in measures)
    for before, after in zip(answers[::2], answers[1::2], strict=True):
        assert ("knocks" in before) is not ("knocks" in after)


def test_nothing_is_asked_without_knocks_and_once_with_them() -> None:
    table = Table()

    table.walk(2, ("count", table.says(0)))

    assert table.seen.count("count") == 1
    assert table.seen.count("repetition") == 2


@pytest.mark.parametrize("off", [-1, 0, 1])
def test_an_answer_within_one_is_stored_with_the_verdict(history: History, off: int) -> None:
    table = Table(history)

    log = table.walk(2, ("count", table.says(off))).log

    [number] = [k for k in (1, 2) if "knocks" in measures_of(history, k)]
    measures = measures_of(history, number)
    assert log.counted == log.played == 2
    assert measures["counted"] == (measures["knocks"] or 0.0) + off
    assert measures["dip"] is not None


@pytest.mark.parametrize("off", [-2, 2])
def test_a_miscount_is_void_and_repeated_as_the_same_half(off: int) -> None:
    table = Table()

    log = table.walk(2, ("count", table.says(off)), ("count", table.says(0))).log

    miscounted = [record for record in log.records if record.verdict.void]
    assert [record.verdict.reason for record in miscounted] == [Reason.MISCOUNTED]
    assert set(miscounted[0].verdict.measures) == {"knocks", "counted"}
    assert log.counted == 2


def test_three_miscounts_in_a_row_are_told_what_helps() -> None:
    table = Table()
    wrong = ("count", table.says(3))

    log = table.walk(2, wrong, wrong, wrong, ("count trouble", "Leave for now")).log

    assert log.voids == {Reason.MISCOUNTED}


@pytest.mark.parametrize("away", [Action.BACK, Action.MENU])
def test_leaving_instead_of_answering_counts_and_is_not_clean(away: Action) -> None:
    table = Table()

    log = table.walk(2, ("count", acts(away)), ("menu", "Leave the set")).log

    last = log.records[-1].verdict
    assert (last.reason, last.score) == (Reason.WALKED_OUT, 0.0)
    assert not last.void
    assert "counted" not in last.measures


def test_closing_the_window_at_the_question_is_leaving_too() -> None:
    table = Table()

    def closes(screen: Attended) -> None:
        screen.on_closing()

    log = table.walk(2, ("count", closes), ("menu", "Leave the set")).log

    assert log.records[-1].verdict.reason is Reason.WALKED_OUT


def test_where_the_sound_goes_away_the_repetition_is_void_and_nothing_is_asked() -> None:
    table = Table()
    speaker = table.stage.speaker
    assert isinstance(speaker, Loudspeaker)
    speaker.lose()

    log = table.walk(2, ("count trouble", "Leave for now")).log

    assert log.voids == {Reason.UNHEARD}
    assert "count" not in table.seen


@pytest.mark.parametrize("heard", [True, False])
@pytest.mark.parametrize("verdict", [Verdict(Reason.GAP), Verdict(Reason.WALKED_OUT, 0.0)])
def test_nothing_is_asked_after_a_repetition_that_is_void_or_was_left(
    verdict: Verdict, heard: bool
) -> None:
    table = Table()
    knocks, place = (Knock(1.0, True), Knock(1.6, False)), Place(1, 10)
    rig, stage = table.setting.rig, table.setting.stage

    told = walk(answered(verdict, knocks, place, rig, stage, heard=heard), table.clock, [])

    assert told is verdict


def with_speaker(setting: Setting, speaker: Loudspeaker | Silence) -> Setting:
    """The same setting with another speaker."""
    return replace(setting, stage=replace(setting.stage, speaker=speaker))


@pytest.mark.parametrize("speaker", [Silence, lambda: Loudspeaker("no audio device")])
def test_without_sound_its_levels_are_not_there_and_with_sound_they_are(
    speaker: Callable[[], Loudspeaker | Silence],
) -> None:
    setting = Table().setting

    silent = with_speaker(setting, speaker())

    assert setting.there.issuperset(required(EASY))
    assert not silent.there.issuperset(required(EASY))
    assert silent.there.issuperset(EASY.pedals)


def test_mixed_levels_draw_no_level_in_pairs(history: History) -> None:
    drawable = Table(history).setting.drawable(LEVELS["mix-1-any"])

    assert drawable
    assert not any(level.kind.in_pairs for level in drawable)


def test_an_answer_goes_up_and_down_and_comes_round() -> None:
    screen = CountAnswer(Place(1, 10))

    acts(Action.NEXT, Action.NEXT, Action.PREVIOUS)(screen)
    once = screen.details()["counted"]
    acts(Action.PREVIOUS, Action.PREVIOUS, Action.NEXT, Action.NEXT, Action.GO)(screen)

    assert once == 1
    assert screen.outcome == 1


def test_the_question_tells_feet_how_to_leave_it_without_a_key() -> None:
    screen = CountAnswer(Place(1, 10))
    screen.means = Means(feet=True)

    assert any(text.endswith("Brake and throttle, Esc: menu") for text in said(screen))
