"""Drives of feet that press both pedals at once: no true blip is lost, few false ones are found."""

from collections.abc import Sequence

import pytest

from drills.measures.blip import Pulse
from drills.measures.long_blips import FEWEST, LONG, SHARE, long_blips_warning
from drills.measures.runs import measure_recording
from tests.drills.measures.drive import Drive, drive
from tests.drills.measures.feet import CLOSE, HABITS, habitual, paused
from tests.drills.measures.test_trail import against_the_chord


def warning(made: Drive) -> str | None:
    """The warning for the long blips of a drive."""
    return long_blips_warning(
        [pulse for run in measure_recording(made.trace) for pulse, _ in run.blips]
    )


@pytest.mark.parametrize("habit", ["coasting", "upshifts"])
@pytest.mark.parametrize("rate", [333, 60])
def test_coasting_and_upshifts_make_no_blip_that_is_scored(habit: str, rate: int) -> None:
    found = against_the_chord(habitual(HABITS[habit], 100, 4, rate))

    assert (found.missed, found.false_scored) == (0, 0)
    assert found.scored > 50
    assert found.error < 2.5


@pytest.mark.parametrize("rows", [True, False])
def test_a_pause_makes_no_blip_that_is_scored_and_loses_none_but_those_it_cuts(rows: bool) -> None:
    made = paused(100, 4, 333, rows=rows)

    found = against_the_chord(made)

    assert (found.missed, found.false_scored) == (0, 0)
    assert found.scored == made.onsets.size > 50


@pytest.mark.parametrize("habit", ["left foot", "overlap", "balance"])
def test_throttle_on_the_brake_that_is_no_downshift_reads_as_blips_and_is_warned_of(
    habit: str,
) -> None:
    made = habitual(HABITS[habit], 100, 5, 333)

    found = against_the_chord(made, CLOSE)

    assert found.false_scored > 2
    assert found.missed <= 1
    assert warning(made) is not None


def test_a_drive_of_downshifts_is_not_warned_of() -> None:
    assert warning(drive(100, 5, 333)) is None


def pulses(*widths: float) -> Sequence[Pulse]:
    """Throttle pulses of these widths."""
    return [Pulse(0, 1, 0.0, 1.0, 60.0, width, 0.1, 0.1) for width in widths]


def test_the_warning_counts_long_blips() -> None:
    some = pulses(*[LONG] * 20, *[LONG + 0.01] * FEWEST)

    assert long_blips_warning(some) == (
        "3 of 23 blips last over 0.35 s: throttle that was no downshift may be among them"
    )


def test_few_long_blips_are_not_warned_of() -> None:
    short = round(FEWEST / SHARE)

    assert long_blips_warning(pulses(*[LONG + 0.01] * (FEWEST - 1))) is None
    assert long_blips_warning(pulses(*[LONG] * short, *[LONG + 0.01] * FEWEST)) is None
    assert long_blips_warning([]) is None
