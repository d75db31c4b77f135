"""Health check in the game: led through it, told, saved, and marked in the lists of levels."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from drills.calibration import COUNTS, Range
from drills.health.course import Step, course_of
from drills.level import Level
from drills.trace import SECOND, Pedal, nanoseconds
from engine.ladder.level_files import SHIPPED, load_levels
from engine.setup.health_flow import check_health
from engine.setup.health_saved import HEALTH, saved_hardware, saved_luck
from engine.setup.health_screens import CheckEnd, HealthFound
from engine.setup.saved_rigs import keep_binding, saved_binding
from engine.stage.actions import Action
from engine.stage.scene import Attended
from tests.drills.health.virtual import Virtual, read
from tests.engine.game.rigged import READ, Rigged
from tests.engine.pedals.joysticks import Pad
from tests.engine.setup.plugged_devices import Act, Bench
from tests.engine.walking import Step as Taken
from tests.engine.walking import back, walk
from tests.fakes import a_stage

LEVELS = load_levels([SHIPPED])
NOW = datetime(2024, 5, 17, tzinfo=UTC)
WHOLE = Range(-1.0, 1.0)
NOISY = Virtual(12, 125, noise=1.4)


def check(bench: Bench, *steps: tuple[str, Taken], levels: Sequence[Level] = LEVELS) -> None:
    """Walk through the health check."""
    walk(check_health(bench.rig, a_stage(), bench.history, levels), bench.clock, steps)


def led(bench: Bench, virtual: Virtual, seconds: float = 30.0) -> Act:
    """Step that follows what the screen asks for on a virtual set, for so many seconds."""
    raw = read(virtual, tuple(Pedal), WHOLE).raw
    pace = 2  # of the reads of a virtual set, for one here

    def step(screen: Attended) -> None:
        for column in raw.counts.T[: round(1000 * seconds) + 2 * pace : pace].tolist():
            for axis, count in enumerate(column):
                bench.pad.move(axis, count / COUNTS)
            screen.on_sample(bench.rig.sample(), bench.clock())
            bench.clock.advance(pace * nanoseconds(0.001))
            if screen.outcome is not None:
                return
        bench.look(screen, 30.01 - seconds)

    return step


def told(says: list[str]) -> Act:
    """Step that notes what is told, and is done."""

    def step(screen: Attended) -> None:
        assert isinstance(screen, HealthFound)
        says.extend(map(str, screen._words.lines))
        screen.on_action(Action.GO)

    return step


def test_a_noisy_set_is_told_saved_and_marked(ready: Bench) -> None:
    says: list[str] = []

    check(
        ready,
        ("before health", "Begin"),
        ("health course", led(ready, NOISY)),
        ("health found", told(says)),
    )

    hardware = saved_hardware(ready.history)
    assert hardware is not None
    assert hardware.noise == pytest.approx(1.4, rel=0.1)
    assert hardware.step == pytest.approx(100 / 4096, rel=0.05)
    assert hardware.interval == pytest.approx(0.008, rel=0.05)
    assert [line.partition(":")[0] for line in says[:3]] == ["Brake", "Throttle", "Clutch"]
    assert says[3].startswith("Noise 1.")
    assert "blip-5-still" in saved_luck(ready.history, LEVELS)
    assert "blip-1-first" not in saved_luck(ready.history, LEVELS)


def test_health_outlives_a_new_calibration_in_its_points(ready: Bench) -> None:
    check(
        ready,
        ("before health", "Begin"),
        ("health course", led(ready, NOISY)),
        ("health found", "Done"),
    )
    before = saved_hardware(ready.history)
    binding = saved_binding(ready.history)
    assert binding is not None
    half = replace(binding.brake, range=Range(binding.brake.range.rest, 0.0))

    keep_binding(ready.history, replace(binding, brake=half), NOW)

    after = saved_hardware(ready.history)
    assert before is not None
    assert after == replace(before, step=2 * before.step, noise=2 * before.noise)


def test_other_pedals_have_no_health_yet(ready: Bench) -> None:
    check(
        ready,
        ("before health", "Begin"),
        ("health course", led(ready, NOISY)),
        ("health found", "Done"),
    )
    binding = saved_binding(ready.history)
    assert binding is not None
    twin = replace(binding.throttle.device, ordinal=1, twins=2)
    throttle = replace(binding.throttle, device=twin)

    keep_binding(ready.history, replace(binding, throttle=throttle), NOW)

    assert saved_hardware(ready.history) is None
    assert saved_luck(ready.history, LEVELS) == frozenset()


def test_it_can_be_done_once_more(ready: Bench) -> None:
    good = Virtual(16, 250, noise=0.05)

    check(
        ready,
        ("before health", "Begin"),
        ("health course", led(ready, NOISY)),
        ("health found", "Once more"),
        ("before health", "Begin"),
        ("health course", led(ready, good)),
        ("health found", "Done"),
    )

    assert saved_luck(ready.history, LEVELS) == frozenset()


@pytest.mark.parametrize("action", [Action.BACK, Action.MENU])
def test_leaving_in_the_middle_saves_nothing(ready: Bench, action: Action) -> None:
    check(
        ready,
        ("before health", "Begin"),
        ("health course", lambda screen: screen.on_action(action)),
    )

    assert ready.history.setting(HEALTH) is None


def test_unplugging_in_the_middle_is_told_and_it_begins_once_more(ready: Bench) -> None:
    seen: list[object] = []

    def pull(screen: Attended) -> None:
        ready.joysticks.replug(ready.pad)
        screen.on_devices(cut=ready.rig.rescan().cut)
        seen.append(screen.outcome)

    check(ready, ("before health", "Begin"), ("health course", pull), ("before health", back))

    assert seen == [CheckEnd.GONE]
    assert ready.history.setting(HEALTH) is None


def test_another_window_in_front_makes_it_begin_once_more(ready: Bench) -> None:
    check(
        ready,
        ("before health", "Begin"),
        ("health course", lambda screen: screen.on_focus(False, ready.clock())),
        ("before health", back),
    )

    assert ready.history.setting(HEALTH) is None


def test_pedals_that_are_read_too_seldom_are_told_so(ready: Bench) -> None:
    def seldom(screen: Attended) -> None:
        for _ in range(31):
            screen.on_sample(ready.rig.sample(), ready.clock())
            ready.clock.advance(SECOND)

        assert screen.outcome is CheckEnd.TOO_LITTLE

    check(ready, ("before health", "Begin"), ("health course", seldom), ("before health", back))


def test_a_computer_that_slept_in_one_part_makes_it_begin_once_more(ready: Bench) -> None:
    def sleeps(screen: Attended) -> None:
        while screen.outcome is None:
            screen.on_sample(ready.rig.sample(), ready.clock())
            ready.clock.advance(SECOND // 100)
            if screen.details()["step"] == "hold":
                ready.clock.advance(20 * SECOND)

        assert screen.outcome is CheckEnd.TOO_LITTLE

    check(ready, ("before health", "Begin"), ("health course", sleeps), ("before health", back))

    assert ready.history.setting(HEALTH) is None


def test_a_click_says_that_something_else_is_asked_for(ready: Bench) -> None:
    clicks: list[str] = []

    def sit(screen: Attended) -> None:
        led(ready, Virtual(12, 125))(screen)
        clicks.extend(screen._speaker.heard)  # type: ignore[attr-defined]

    check(ready, ("before health", "Begin"), ("health course", sit), ("health found", "Done"))

    assert clicks == ["count"] * (len(course_of(tuple(Pedal))) - 1)


def test_each_step_is_in_the_events(ready: Bench) -> None:
    steps: list[object] = []

    def halfway(screen: Attended) -> None:
        steps.append(dict(screen.details()))
        for _ in range(2100):
            screen.on_sample(ready.rig.sample(), ready.clock())
            ready.clock.advance(nanoseconds(0.001))
        steps.append(dict(screen.details()))
        screen.on_action(Action.BACK)

    check(ready, ("before health", "Begin"), ("health course", halfway))

    assert steps == [{"step": Step.OFF}, {"step": Step.PRESS, "pedal": "brake"}]


def test_without_pedals_there_is_nothing_to_check(bench: Bench) -> None:
    check(bench, ("before health", "Back"))


@pytest.mark.parametrize(
    "saved",
    [
        [1],
        {"a": 1},
        {"a": {"step": -1, "noise": 0, "interval": 0.01}},
        {"a": {"step": 1, "noise": True, "interval": 0.01}},
        {"a": {"step": 1, "noise": 0, "interval": 0}},
    ],
)
def test_a_saved_health_that_cannot_be_understood_was_never_checked(
    ready: Bench, saved: object
) -> None:
    ready.history.keep_setting(HEALTH, saved)

    assert saved_luck(ready.history, LEVELS) == frozenset()


def test_more_offers_the_health_check_to_feet_alone(game: Rigged, pad: Pad) -> None:
    game.walk(
        READ,
        *game.set_up(pad),
        ("home", "More"),
        ("more", "Check the pedals"),
        ("before health", "Back"),
        ("home", "Leave"),
    )


def test_a_try_out_with_the_mouse_offers_no_health_check(bare: Rigged) -> None:
    offered: list[object] = []

    def look(screen: Attended) -> None:
        offered.append(screen.details()["choices"])
        back(screen)

    bare.walk(
        READ,
        ("no pedals", "Try with the mouse"),
        ("home", "More"),
        ("more", look),
        ("home", "Leave"),
    )

    assert "Check the pedals" not in str(offered)
