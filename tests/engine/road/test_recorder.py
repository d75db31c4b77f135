"""Pedal samples as rows of a recording: changes, rest, gaps, and what ends it."""

from collections.abc import Iterable

import numpy as np
import pytest

from drills.calibration import COUNTS, Range
from drills.measures.runs import measure_recording
from drills.recording import Format, read_recording
from drills.trace import SECOND, Sample, Trace, nanoseconds
from engine.road.recorder import DriveRecorder
from tests.drills.shapes import half_sine

LOOK = nanoseconds(0.002)
TRAVEL = Range(-0.87, 0.93)


class Dates:
    """A clock that goes on in sleep, `ahead` ns of the other."""

    def __init__(self) -> None:
        self.now = 0
        self.ahead = 0

    def __call__(self) -> int:
        """The time in ns."""
        return self.now + self.ahead


class Taken:
    """A recorder that is given a sample every 2 ms, and the rows that it returns."""

    def __init__(self, *, clutch: bool = False) -> None:
        self.dates = Dates()
        self.recorder = DriveRecorder(clutch=clutch, date=self.dates)
        self.text = self.recorder.header
        self.now = 7 * SECOND

    def look(self, brake: float | None, throttle: float = 0.0, clutch: float | None = None) -> None:
        """Give one sample; a brake of None for pedals that are not there."""
        self.dates.now = self.now
        sample = None if brake is None else Sample(self.now, brake, throttle, clutch)
        self.text += self.recorder.take(sample, self.now)
        self.now += LOOK

    def hold(self, seconds: float, brake: float | None) -> None:
        """Give samples of pedals that stay where they are."""
        for _ in range(round(seconds * SECOND / LOOK)):
            self.look(brake)

    def ended(self) -> str:
        """The whole text of the recording once it has ended."""
        return self.text + self.recorder.end()

    def trace(self) -> Trace:
        """The trace that is read from the recording."""
        return read_recording(self.ended(), Format()).trace


def test_each_change_is_a_row_with_the_time_since_the_first_look() -> None:
    taken = Taken(clutch=True)

    for brake in (0.0, 0.0, 12.5, 12.5, 30.0):
        taken.look(brake, 1.5, 100.0)

    assert taken.ended() == (
        "time,brake,throttle,clutch\n"
        "0.000000000,0.0,1.5,100.0\n"
        "0.004000000,12.5,1.5,100.0\n"
        "0.008000000,30.0,1.5,100.0\n"
    )


def test_a_foot_at_rest_is_a_row_often_enough_to_be_told_from_a_gap() -> None:
    taken = Taken()

    taken.hold(10.0, 60.0)
    recording = read_recording(taken.ended(), Format())

    assert recording.warnings == ()
    assert recording.trace.time.size == pytest.approx(10 / 0.016, abs=1)


def test_every_axis_count_and_every_time_come_back_exactly() -> None:
    counts = np.random.default_rng(3).integers(-COUNTS, COUNTS, 500)
    taken, times = Taken(), []

    for count in counts.tolist():
        times.append(taken.now)
        taken.look(TRAVEL.percent(count / COUNTS))
    trace = taken.trace()

    back = np.array([round(TRAVEL.raw(percent) * COUNTS) for percent in trace.brake.tolist()])
    kept = np.append(True, np.diff(counts) != 0)
    inside = np.abs(np.array([TRAVEL.percent(count / COUNTS) - 50 for count in counts])) <= 100
    assert np.array_equal(back[inside[kept]], counts[kept & inside])
    assert (trace.time + 7 * SECOND).tolist() == np.array(times, dtype=np.int64)[kept].tolist()


def driven(seconds: float) -> Iterable[tuple[float, float]]:
    """Brake and throttle every 2 ms: braking, with two blips that each take 10 points off it."""
    time = np.arange(0, seconds, LOOK / SECOND)
    throttle = sum(80 * half_sine(0.25)(time - onset) for onset in (2.0, 3.0))
    brake = 60 - sum(10 * half_sine(0.2)(time - onset) for onset in (2.0, 3.0))
    return zip(np.round(brake, 3).tolist(), np.round(throttle, 3).tolist(), strict=True)


def test_a_recorded_drive_measures_as_what_was_driven_does_without_a_file() -> None:
    taken, looks = Taken(), list(driven(5.0))

    for brake, throttle in looks:
        taken.look(brake, throttle)

    brake, throttle = np.array(looks).T
    direct = Trace(np.arange(len(looks), dtype=np.int64) * LOOK, brake, throttle)
    [run] = measure_recording(taken.trace())
    assert len(run.blips) == 2
    assert [run] == measure_recording(direct)


def test_the_newest_row_waits_so_that_an_axis_that_snaps_back_is_not_written() -> None:
    taken = Taken()

    taken.look(60.0)
    taken.look(0.0)
    taken.recorder.cut()
    taken.look(None)

    assert taken.ended() == "time,brake,throttle\n0.000000000,60.0,0.0\n"


def test_pedals_that_are_gone_for_a_while_leave_a_gap() -> None:
    taken = Taken()

    taken.hold(0.5, 60.0)
    taken.hold(2.0, None)
    taken.hold(0.5, 60.0)

    recording = read_recording(taken.ended(), Format())
    assert recording.warnings == ("1 gaps over 0.1 s, the longest 2.004 s at 0.496 s",)


def test_the_time_that_the_computer_slept_is_a_gap_though_the_clock_stood_still() -> None:
    taken = Taken()

    taken.hold(0.5, 60.0)
    taken.dates.ahead = 90 * SECOND
    taken.hold(0.5, 60.0)

    recording = read_recording(taken.ended(), Format())
    assert recording.warnings == ("1 gaps over 0.1 s, the longest 90.004 s at 0.496 s",)
    assert taken.recorder.seconds == pytest.approx(1.0, abs=0.01)


def test_five_minutes_asleep_end_the_drive() -> None:
    taken = Taken()

    taken.hold(0.5, 60.0)
    taken.dates.ahead = 300 * SECOND
    taken.hold(0.2, 0.0)

    assert taken.recorder.is_idle


def test_a_date_that_is_set_back_changes_nothing() -> None:
    taken = Taken()

    taken.hold(0.5, 60.0)
    taken.dates.ahead = -90 * SECOND
    taken.hold(0.5, 60.0)

    assert read_recording(taken.ended(), Format()).warnings == ()


def test_five_minutes_without_a_moved_pedal_end_the_drive() -> None:
    taken = Taken()
    taken.look(0.0)

    taken.now += nanoseconds(299.0)
    taken.look(1.9)
    almost = taken.recorder.is_idle
    taken.now += nanoseconds(1.0)
    taken.look(0.1)

    assert (almost, taken.recorder.is_idle) == (False, True)


def test_a_moved_pedal_starts_the_five_minutes_afresh() -> None:
    taken = Taken()
    taken.look(0.0)

    taken.now += nanoseconds(299.0)
    taken.look(2.1)
    taken.now += nanoseconds(299.0)
    taken.look(2.1)

    assert not taken.recorder.is_idle


def test_unplugged_pedals_end_the_drive_after_five_minutes_too() -> None:
    taken = Taken()
    taken.look(None)

    taken.now += nanoseconds(300.0)
    taken.look(None)

    assert taken.recorder.is_idle
    assert taken.ended() == "time,brake,throttle\n"


def test_a_pedal_pressed_far_past_its_end_is_written_so_that_it_can_be_read() -> None:
    taken = Taken()

    taken.look(180.0)
    taken.look(-70.0)

    assert taken.trace().brake.tolist() == [150.0, -50.0]
