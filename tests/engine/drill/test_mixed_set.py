"""Mixed sets: levels are drawn from the seed of the set, named on the screen and recorded."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pygame

from drills.kinds import KINDS
from drills.level import Feedback
from drills.repetition import Repetition
from engine.drill.attempt import Setting
from engine.drill.set import run_set
from engine.drill.summary import Summary
from engine.kit.canvas import Fonts
from engine.practice.passes import needed
from engine.stage.actions import Action
from engine.stage.scene import Attended
from engine.store import History
from tests.engine.five.learning_foot import BY_ID, LEVELS, Learning, passes
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.engine.walking import sit_through

MIX = replace(BY_ID["mix-1-any"], repetitions=8, feedback=Feedback.NONE)
POOL = needed(MIX, LEVELS)
UNASKED = [replace(level, guess=False) for level in LEVELS]


def learner(history: History) -> Learning:
    """A good foot on levels that ask for no guess."""
    learning = Learning(history, 0.9)
    learning.setting = replace(learning.setting, levels=UNASKED)
    return learning


def test_each_repetition_is_of_a_passed_level_and_another_kind_than_the_one_before(
    history: History,
) -> None:
    passes(history, *POOL)
    learning = learner(history)

    records = learning.walk(run_set(MIX, learning.setting, 8)).log.records

    counted = [record for record in records if not record.verdict.void]
    assert len(counted) == 8
    assert {record.drawn for record in records} <= {level.id for level in POOL}
    assert all(first.kind != second.kind for first, second in pairwise(records))
    assert {record.level for record in records} == {MIX.id}
    assert {record.rule for record in records} == {MIX.rule}
    low, high = MIX.targets.least, MIX.targets.greatest
    assert all(low <= record.target <= high for record in records)
    assert len({record.target for record in records}) > 3


def test_only_the_hardest_passed_levels_of_each_kind_are_drawn(history: History) -> None:
    passes(history, *POOL, BY_ID["blip-4-ripple"])
    learning = learner(history)
    hardest = replace(MIX, own={"hardest": 1.0})

    records = learning.walk(run_set(hardest, learning.setting, 8)).log.records

    assert {record.drawn for record in records if record.kind == "blip"} == {"blip-4-ripple"}


def test_the_drawn_level_is_named_before_the_brake_is_found(history: History) -> None:
    passes(history, *POOL)
    learning = learner(history)
    named: list[object] = []
    flow = run_set(MIX, learning.setting, 1)

    scene = next(flow)
    screen: Attended = scene.screen
    named.append(screen.details()["named"])
    sit_through(scene, learning.clock)

    assert isinstance(screen.outcome, Repetition)
    next(flow, None)
    assert named == [KINDS[learning.audience.records[0][1].kind].title]


def test_the_tasks_of_a_set_can_be_drawn_again_from_the_stored_seed(history: History) -> None:
    level = replace(BY_ID["run-6-any"], repetitions=4, feedback=Feedback.NONE)
    learning = learner(history)

    records = learning.walk(run_set(level, learning.setting, 4)).log.records

    assert len({record.seed for record in records}) == 1
    place = 1
    for number, record in enumerate(records):
        assert record.seed is not None
        rng = np.random.default_rng((record.seed, number))
        target = level.targets.at(place, rng)
        task = level.kind.task(level, target, rng)
        assert record.target == target
        assert learning.audience.tasks[number].cues == task.cues
        assert learning.audience.tasks[number].wait == task.wait
        place += not record.verdict.void


def test_a_summary_of_a_mixed_set_names_the_level_of_each_repetition(history: History) -> None:
    passes(history, *POOL)
    learning = learner(history)
    screens: list[Summary] = []
    five = replace(MIX, feedback=Feedback.SUMMARY)

    def keeps(screen: Attended) -> None:
        assert isinstance(screen, Summary)
        screens.append(screen)
        screen.on_action(Action.GO)

    flow = run_set(five, learning.setting, 5)
    for scene in flow:
        if scene.screen.name == "summary":
            keeps(scene.screen)
        else:
            sit_through(scene, learning.clock)

    [summary] = screens
    pygame.font.init()
    canvas = RecordingCanvas((1920, 1080), Fonts())
    summary.picture(canvas)
    drawn = [BY_ID[name].title for name in learning.drawn if name != MIX.id]
    assert [text.text for text in canvas.texts if text.text in drawn] == [
        BY_ID[record.drawn].title
        for _, record in learning.audience.records
        if not record.verdict.void
    ]


def test_two_sets_of_one_level_have_different_seeds(history: History) -> None:
    level = replace(BY_ID["blip-1-first"], repetitions=1, feedback=Feedback.NONE)
    learning = learner(history)

    seeds = [
        learning.walk(run_set(level, learning.setting, 1)).log.records[0].seed for _ in range(2)
    ]

    assert seeds[0] != seeds[1]


def test_without_a_history_a_mixed_level_draws_from_the_levels_it_needs(history: History) -> None:
    learning = learner(history)
    tryout: Setting = replace(learning.setting, history=None)

    records = learning.walk(run_set(MIX, tryout, 3)).log.records

    assert {record.drawn for record in records} <= {level.id for level in POOL}


def test_a_mixed_level_that_needs_nothing_draws_from_the_first_levels_before_any_is_passed(
    history: History,
) -> None:
    mine = replace(MIX, id="my-mix", needs=(), stage="")
    learning = learner(history)
    learning.setting = replace(learning.setting, levels=[*UNASKED, mine])

    records = learning.walk(run_set(mine, learning.setting, 2)).log.records

    first = {level.id for level in LEVELS if not level.needs}
    assert {record.drawn for record in records} <= first
    passes(history, mine)
    again = learning.walk(run_set(mine, learning.setting, 2)).log.records
    assert {record.drawn for record in again} <= first
