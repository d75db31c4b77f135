"""Words about the health of pedals."""

from dataclasses import replace

import pytest

from drills.health.luck import Hardware
from drills.health.pedal import PedalHealth, measure_health
from drills.health.reports import Timing
from drills.health.words import (
    faults_sentence,
    levels_sentence,
    limits_sentence,
    number,
    oddities,
    pedal_line,
)
from drills.trace import Pedal
from engine.setup.health_words import health_words
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
LATE_START = (
    "The brake did not move in the first 20 % of its slow press: a dead end, or a late start."
)
EARLY_END = "The brake did not move in the last 25 % of its slow press: a dead end, or done early."
UNEVEN = Timing(0.008, 0.045, 0.002, 9, 500)
RIG = Hardware(step=0.02, noise=0.05, interval=0.008)


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (1.2e-14, "0"),
        (0.0, "0"),
        (0.0015258, "0.0015"),
        (0.0996, "0.1"),
        (0.6, "0.6"),
        (9.96, "10"),
        (124.97, "125"),
    ],
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
        ({"dead_low": 20.0}, [LATE_START]),
        ({"dead_high": 25.0}, [EARLY_END]),
        ({"dead_high": 25.0, "pedal": Pedal.THROTTLE}, []),
        ({"jumps": 1}, ["The brake jumped once: look at its plug and cable."]),
        ({"jumps": 3}, ["The brake jumped 3 times: look at its plug and cable."]),
        (
            {"stalls": 1},
            ["The brake stopped reporting once: give the pedals a USB port of their own."],
        ),
        (
            {"stalls": 14, "timing": UNEVEN, "leap": 4.4, "still": 1.4},
            ["The brake stopped reporting 14 times: give the pedals a USB port of their own."],
        ),
        (
            {"timing": UNEVEN},
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


@pytest.mark.parametrize(
    ("stalls", "jumps", "sentence"),
    [
        (0, 0, ""),
        (2, 0, "Stalls spoil repetitions: see to them first."),
        (0, 1, "Jumps spoil repetitions: see to them first."),
        (2, 1, "Stalls and jumps spoil repetitions: see to them first."),
    ],
)
def test_faults_are_told_in_place_of_words_that_all_is_fine(
    stalls: int, jumps: int, sentence: str
) -> None:
    throttle = replace(WELL, pedal=Pedal.THROTTLE)

    words = health_words([replace(WELL, stalls=stalls), replace(throttle, jumps=jumps)], [level()])

    fine = (
        "It shows dips down to 0.32 points.",
        "No level asks for more than these pedals can show.",
    )
    assert faults_sentence([replace(WELL, stalls=stalls, jumps=jumps)]) == sentence
    assert (words.limits, words.levels) == (("", sentence) if sentence else fine)
    assert "" not in words.lines


def test_levels_of_luck_are_named_on_pedals_with_faults_too() -> None:
    coarse, asked = replace(WELL, step=0.8, stalls=2), level(limits={"dip": 1.0})

    words = health_words([coarse, replace(WELL, pedal=Pedal.THROTTLE)], [asked, level(id="other")])

    assert words.limits == "Steps of 0.8 points: dips under 1.6 are partly luck."
    assert words.levels == f"Partly luck with these pedals: {asked.title}."


def test_good_pedals_have_nothing_wrong() -> None:
    for health in measure_health(read(Virtual(16, 1000, noise=0.02)).raw):
        assert oddities(health) == []
