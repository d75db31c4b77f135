"""A made-up kind of drill is played from its level file to its reveal."""

from datetime import UTC, datetime
from pathlib import Path

import numpy as np
import pygame
import pytest

from drills.calibration import UNIT
from drills.coach import Prompt
from drills.deviation import Deviation, of_window
from drills.level import Kind, Level
from drills.level_file import LevelError
from drills.level_key import Key
from drills.measures.hold import measure_hold
from drills.remark import Remark
from drills.score import Judged, Reason, Verdict, weigh
from drills.task import AT_REST, Move, Performance, Task
from drills.trace import SECOND, Grid, Pedal
from engine.drill.attempt import Setting
from engine.drill.repetition_screen import RepetitionScreen
from engine.drill.reveal import Reveal
from engine.drill.set import run_set
from engine.kit import theme
from engine.kit.base import Place
from engine.kit.canvas import Fonts
from engine.ladder.level_files import load_levels
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.stage.actions import Action
from engine.stage.headless import ManualClock
from engine.stage.scene import Attended
from engine.store import open_history
from engine.store.repetitions import measures_of
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.engine.walking import walk
from tests.fakes import LettingGo, Steady, a_stage


class Taps(Kind):
    """Kind that holds the brake while the throttle is tapped."""

    name = "taps"
    pedals = (Pedal.BRAKE, Pedal.THROTTLE)
    keys = (Key("taps", 1, 9, default=2, whole=True),)
    measures = ("swing", "mean")
    reveal_measures = ("swing",)

    def task(self, level: Level, target: float, rng: np.random.Generator) -> Task:
        tap = (
            Move(Pedal.THROTTLE, 50.0, up=True, within=1.0),
            Move(Pedal.THROTTLE, 5.0, up=False, within=1.0),
        )
        return Task(
            target=target,
            start={Pedal.BRAKE: level.around(target), Pedal.THROTTLE: AT_REST},
            wait=0.5,
            cues=(0.0,),
            moves=tap * int(level.own["taps"]),
            tail=0.25,
        )

    def judge(self, level: Level, task: Task, done: Performance) -> Judged:
        grid = Grid.of(done.trace)
        held = measure_hold(grid.brake[grid.index(done.cues[0]) :], task.target, level.tolerance)
        verdict = weigh({"swing": held.swing, "mean": held.mean}, level.limits)
        return Judged(task, done, verdict, grid)

    def prompt(self, level: Level, task: Task) -> Prompt:
        return Prompt("hold", f"{task.target:.0f}", f"Then tap {level.own['taps']:.0f} times.")

    def comment(self, level: Level, verdict: Verdict) -> Remark:
        said = f"The brake swung by {verdict.measures['swing']:.0f} points under the taps."
        return Remark("swing", (said,))

    def picture(self, level: Level, judged: Judged) -> Deviation | None:
        cue = judged.done.cues[0] / SECOND
        return of_window(judged.grid, cue, cue + 1.0, judged.task.target)


LEVEL = """
id = "three-taps"
title = "Three taps"
purpose = "Tap the throttle three times while the brake stays."
kind = "taps"
taps = 3
targets = [40]
tolerance = 6
repetitions = 1
limits = { swing = 4 }
"""


def level_of(text: str, folder: Path) -> Level:
    """Level read from a file with `text`, with the made-up kind registered."""
    (folder / "taps.toml").write_text(text, encoding="utf-8")
    (level,) = load_levels([folder], kinds={"taps": Taps()})
    return level


def tapping(now: int) -> float:
    """Throttle of 80 % for a tenth of every half second, from 2 s on."""
    return 0.8 if now >= 2 * SECOND and now % (SECOND // 2) < SECOND // 10 else 0.0


def test_a_level_of_the_kind_is_played_from_its_file_to_its_reveal(tmp_path: Path) -> None:
    level, clock, seen = level_of(LEVEL, tmp_path), ManualClock(), list[Attended]()
    foot = LettingGo(Steady(clock, 0.41, tapping))
    rig = Rig(clock, pedals=CalibratedPedals(foot, UNIT))

    def read(screen: Attended) -> None:
        seen.append(screen)
        screen.on_action(Action.GO)

    with open_history(tmp_path / "data", []) as history:
        setting = Setting(
            rig,
            a_stage(foot),
            history,
            np.random.default_rng(1),
            lambda: datetime(2024, 5, 17, tzinfo=UTC),
        )
        played = walk(run_set(level, setting, level.repetitions), clock, [("reveal", read)])
        measures = measures_of(history, 1)

    [record] = played.log.records
    assert (record.kind, record.verdict.reason) == ("taps", Reason.CLEAN)
    assert measures == {"swing": 0.0, "mean": pytest.approx(41.0)}
    pygame.font.init()
    canvas = RecordingCanvas((1920, 1080), Fonts())
    assert isinstance(seen[0], Reveal)
    seen[0].paint(canvas, 0.0)
    texts = [text.text for text in canvas.texts]
    assert "The brake swung by 0 points under the taps." in " ".join(texts)
    assert {"0", "points from least to most, 4 allowed"} <= set(texts)
    # A brake of 41 % against a target of 40 %: one level line, above the middle line.
    [curve] = [points for colour, points in canvas.curves if colour == theme.BRAKE]
    heights = {round(y) for _, y in curve}
    target = next(text.ink for text in canvas.texts if text.text == "target")
    assert len(heights) == 1
    assert heights.pop() < target.centery


def test_the_prompt_of_the_kind_is_on_the_screen_before_the_dark(tmp_path: Path) -> None:
    level = level_of(LEVEL, tmp_path)
    task = Taps().task(level, 40.0, np.random.default_rng(1))
    pygame.font.init()
    canvas = RecordingCanvas((1920, 1080), Fonts())

    RepetitionScreen(level, task, Place(1, 1), a_stage(), 0).paint(canvas, 0.0)

    texts = [text.text for text in canvas.texts]
    assert texts[:2] == ["hold", "40"]
    assert "Then tap 3 times." in texts


@pytest.mark.parametrize(
    ("line", "taps"), [("taps = 3\n", 3), ("", 2)], ids=["said", "left to its default"]
)
def test_a_level_has_the_keys_of_its_kind(line: str, taps: int, tmp_path: Path) -> None:
    level = level_of(LEVEL.replace("taps = 3\n", line), tmp_path)

    assert level.own == {"taps": taps}
    assert level.pedals == (Pedal.BRAKE, Pedal.THROTTLE)


@pytest.mark.parametrize("said", ["10", "2.5", '"two"'])
def test_a_wrong_key_of_the_kind_is_named(said: str, tmp_path: Path) -> None:
    with pytest.raises(LevelError) as refused:
        level_of(LEVEL.replace("taps = 3\n", f"taps = {said}\n"), tmp_path)

    found = said.replace('"', "'")
    expected = f"taps: expected a whole number from 1 to 9, found {found}"
    assert str(refused.value) == f"{tmp_path / 'taps.toml'}: {expected}"
