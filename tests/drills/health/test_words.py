"""Words about the health of pedals."""

from dataclasses import replace

import pytest

from drills.health.luck import Hardware
from drills.health.pedal import PedalHealth, measure_health
from drills.health.reports import Timing
from drills.health.words import levels_sentence, limits_sentence, number, oddities, pedal_line
from drills.trace import Pedal
from tests.drills.health.virtual import Virtual, read
from tests.made import level

WELL = PedalHealth(
    Pedal.BRAKE,
    seen=True,
    step=0.0244,
    steps=4096.0,
    rest=0.05,
    held=0.06,
    timing=Timing(0.008, 0.009, 0.0002, 2, 500),
    highest=100.0,
    axis_used=80.0,
)
RIG = Hardware(step=0.02, noise=0.05, interval=0.008)


@pytest.mark.parametrize(
    ("value", "text"),
    [(0.0015258, "0.0015"), (0.0996, "0.1"), (0.6, "0.6"), (9.96, "10"), (124.97, "125")],
)
def test_numbers_have_two_digits(value: float, text: str) -> None:
    assert number(value) == text


@pytest.mark.parametrize(
    ("health", "line"),
    [
        (WELL, "Brake: steps of 0.024 %, noise 0.06 points, 125 reports a second"),
        (
            replace(WELL, held=None, rest=0.0),
            "Brake: steps of 0.024 %, no noise at rest, 125 reports a second",
        ),
        (replace(WELL, timing=None), "Brake: steps of 0.024 %, noise 0.06 points"),
        (PedalHealth(Pedal.CLUTCH, seen=False), "Clutch: not seen yet. It has not moved."),
    ],
)
def test_a_pedal_is_told_in_one_line(health: PedalHealth, line: str) -> None:
    assert pedal_line(health) == line


@pytest.mark.parametrize(
    ("changes", "sentences"),
    [
        ({}, []),
        ({"dead_low": 14.0, "dead_high": 14.0}, []),
        ({"dead_low": 20.0}, ["The first 20 % of the brake's travel does nothing."]),
        ({"dead_high": 25.0}, ["The last 25 % of the brake's travel does nothing."]),
        ({"dead_high": 25.0, "pedal": Pedal.THROTTLE}, []),
        ({"jumps": 1}, ["The brake jumped once: look at its plug and cable."]),
        ({"jumps": 3}, ["The brake jumped 3 times: look at its plug and cable."]),
        (
            {"timing": Timing(0.008, 0.045, 0.002, 9, 500)},
            ["The brake reports unevenly: 9 times over 20 ms apart."],
        ),
        ({"leap": 1.5}, ["The brake sticks: pressed slowly it leaps by 1.5 points."]),
        (
            {"still": 1.4},
            ["Held, the brake stood on one value for 1.4 s: small moves are lost."],
        ),
        ({"still": 1.4, "step": 0.4}, []),
        ({"axis_used": 12.4}, ["The brake uses 12 % of its axis: widen it in its software."]),
        ({"highest": 118.0}, ["The brake went 18 points past full: set it up again."]),
        ({"seen": False, "jumps": 3}, []),
    ],
)
def test_what_is_wrong_with_a_pedal_is_told(
    changes: dict[str, object], sentences: list[str]
) -> None:
    assert oddities(replace(WELL, **changes)) == sentences  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("hardware", "sentence"),
    [
        (RIG, "It shows dips down to 0.26 points."),
        (
            Hardware(0.01, 0.6, 0.001),
            "Noise 0.6 points: dips under 3.9 and wander under 1.2 are partly luck.",
        ),
        (Hardware(0.8, 0.0, 0.008), "Steps of 0.8 points: dips under 1.6 are partly luck."),
        (
            Hardware(0.02, 0.05, 0.0333),
            "33 ms between reports: times under 0.07 s are partly luck.",
        ),
        (Hardware(0.02, 0.05, 0.05), "Too slow to judge: 50 ms between reports, 40 ms at most."),
        (Hardware(2.5, 0.0, 0.008), "Too coarse to judge: a step is 2.5 points of the brake."),
    ],
)
def test_what_a_rig_cannot_show_is_told_in_one_sentence(hardware: Hardware, sentence: str) -> None:
    assert limits_sentence(hardware) == sentence


@pytest.mark.parametrize(
    ("count", "sentence"),
    [
        (0, "No level asks for more than these pedals can show."),
        (2, "Partly luck with these pedals: Level 0, Level 1."),
        (6, "6 levels are partly luck with these pedals; the lists mark them."),
        (7, "Every level is partly luck with these pedals."),
    ],
)
def test_levels_that_are_partly_luck_are_named_or_counted(count: int, sentence: str) -> None:
    levels = [replace(level(), id=f"level-{at}", title=f"Level {at}") for at in range(7)]
    lucky = frozenset(one.id for one in levels[:count])

    assert levels_sentence(levels, lucky, RIG) == sentence


def test_pedals_that_cannot_be_judged_name_no_level() -> None:
    slow = replace(RIG, interval=0.1)

    assert levels_sentence([level()], frozenset({level().id}), slow) == (
        "No level can be judged with these pedals."
    )


def test_good_pedals_have_nothing_wrong() -> None:
    for health in measure_health(read(Virtual(16, 1000, noise=0.02)).raw):
        assert oddities(health) == []
