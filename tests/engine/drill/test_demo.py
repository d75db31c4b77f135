"""Demo of a set: pedals, random numbers and history of its own."""

import shutil
from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import numpy as np
import pygame
import pytest

from drills.kinds import KINDS
from drills.level import PassRule
from engine.drill.demo import watch
from engine.drill.demonstration import Demonstration
from engine.drill.lesson_saved import Lessons
from engine.drill.watched_repetition import BESIDE, WatchedRepetition
from engine.kit.canvas import Canvas, Fonts
from engine.kit.flow import watched as screens_of
from engine.kit.foot import draw_foot
from engine.kit.foot_pose import Pressed, Way
from engine.ladder.level_files import SHIPPED, load_levels
from engine.stage.headless import ManualClock, run_headless
from engine.stage.scene import Scene
from engine.store import open_history
from engine.store.history import FILE
from tests.fakes import Audience, a_stage
from tests.loudspeaker import Loudspeaker
from tests.stored import all_results

VERSION_1 = Path(__file__).parents[2] / "store" / "version1.sqlite3"
LEVEL = next(level for level in load_levels([SHIPPED]) if level.id == "blip-1-first")


def watched(folder: Path, skill: float, seed: int = 5, repetitions: int = 3) -> Audience:
    """Listener that has watched a set of a simulated foot."""
    clock, audience = ManualClock(), Audience()
    demonstration = Demonstration(LEVEL, repetitions, seed, skill)
    with open_history(folder, []) as history:
        stage = a_stage(audience)
        now = datetime(2024, 5, 17, tzinfo=UTC)
        run_headless(watch(demonstration, clock, stage, history, lambda: now), clock)
    return audience


def test_another_skill_with_the_same_seed_has_the_same_foreperiods(tmp_path: Path) -> None:
    beginner = watched(tmp_path / "beginner", 0.2)
    expert = watched(tmp_path / "expert", 0.9)

    waits = [task.wait for task in beginner.tasks]
    assert waits[:3] == [task.wait for task in expert.tasks][:3]
    assert len(set(waits)) == len(waits)


def test_foreperiods_do_not_share_random_numbers_with_the_foot(tmp_path: Path) -> None:
    seed = 5
    of_the_foot = LEVEL.foreperiod.draw(np.random.default_rng(seed))

    first = watched(tmp_path, 0.5, seed, 1).tasks[0]

    assert first.wait != of_the_foot


def test_a_history_without_a_folder_is_deleted() -> None:
    with Demonstration(LEVEL, 1, 1, 0.5).history() as history:
        folder = history.path.parent
        there = history.path.exists()

    assert (there, folder.exists()) == (True, False)


def test_a_history_with_a_folder_stays_and_uses_the_current_pass_rules(tmp_path: Path) -> None:
    shutil.copy(VERSION_1, tmp_path / FILE)
    strict = PassRule(100, 100)
    strict_level = replace(LEVEL, rule=strict)

    with Demonstration(LEVEL, 1, 1, 0.5, tmp_path, [strict_level]).history() as history:
        rules = {result.rule for result in all_results(history) if result.level == LEVEL.id}

    assert rules == {strict}
    assert (tmp_path / FILE).exists()


def test_the_simulated_foot_lets_go_at_each_menu(tmp_path: Path) -> None:
    audience = watched(tmp_path, 0.9, repetitions=2)

    assert audience.menus == 3
    assert [place for place, record in audience.records if not record.verdict.void] == [1, 2]
    assert {record.source for _, record in audience.records} == {"simulated"}


@pytest.mark.parametrize("shown", [True, False])
def test_a_tour_shows_the_lesson_of_each_kind_only_where_it_is_given_lessons(
    tmp_path: Path, shown: bool
) -> None:
    clock, seen = ManualClock(), list[str]()
    demonstration = Demonstration(LEVEL, 1, 5, 0.9, levels=load_levels([SHIPPED]), tour=True)
    lessons = Lessons(None, Way.HEEL) if shown else None

    def note(scene: Scene) -> None:
        seen.append(scene.screen.name)

    with open_history(tmp_path, []) as history:
        now = datetime(2024, 5, 17, tzinfo=UTC)
        flow = watch(demonstration, clock, a_stage(), history, lambda: now, lessons)
        run_headless(screens_of(flow, note, lambda _: None), clock)

    own = len(KINDS) - 1
    assert seen.count("lesson") == (own if shown else 0)
    assert "way" not in seen


def test_a_demo_that_would_pass_its_level_has_no_moment(tmp_path: Path) -> None:
    clock, stage, screens = ManualClock(), a_stage(), list[tuple[str, Mapping[str, object]]]()
    speaker = stage.speaker
    assert isinstance(speaker, Loudspeaker)

    def note(scene: Scene) -> None:
        screens.append((scene.screen.name, scene.screen.details()))

    with open_history(tmp_path, []) as history:
        now = datetime(2024, 5, 17, tzinfo=UTC)
        demo = watch(Demonstration(LEVEL, 10, 5, 0.95), clock, stage, history, lambda: now)
        run_headless(screens_of(demo, note, lambda _: None), clock)

    name, ended = screens[-1]
    assert (name, ended["passed_now"]) == ("set end", True)
    assert "moment" not in [name for name, _ in screens]
    assert "passed" not in speaker.heard


@pytest.mark.parametrize("way", Way)
def test_the_foot_of_a_demo_blips_in_the_way_that_is_asked_for(tmp_path: Path, way: Way) -> None:
    clock, feet = ManualClock(), list[bytes]()

    def note(scene: Scene) -> None:
        if isinstance(scene.screen, WatchedRepetition):
            feet.append(foot_of(scene.screen))

    with open_history(tmp_path, []) as history:
        now = datetime(2024, 5, 17, tzinfo=UTC)
        demo = watch(
            Demonstration(LEVEL, 1, 5, 0.9), clock, a_stage(), history, lambda: now, way=way
        )
        run_headless(screens_of(demo, note, lambda _: None), clock)

    assert set(feet) == {drawn_foot(way)}


def foot_of(screen: WatchedRepetition) -> bytes:
    """Pixels of the moving parts of a repetition of the demo."""
    pygame.font.init()
    surface = pygame.Surface((640, 360))
    screen.paint_moving(Canvas(surface, Fonts()))
    return pygame.image.tobytes(surface, "RGB")


def drawn_foot(way: Way) -> bytes:
    """Pixels of a foot over released pedals, beside the prompt."""
    pygame.font.init()
    surface = pygame.Surface((640, 360))
    draw_foot(Canvas(surface, Fonts()), *BESIDE, Pressed(0.0), way)
    return pygame.image.tobytes(surface, "RGB")
