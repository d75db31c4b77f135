"""Work on a fault once more by its definition alone: from when it is told until it has halved."""

from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

from drills.fault import Fault
from engine.five.saved_focus import focus_now, refresh_focus
from engine.practice.diagnosis import diagnose
from engine.store import History, open_history
from tests.bench.faulty_feet import FaultyFoot
from tests.bench.feet_histories import practised

DAY = date(2024, 3, 1)
FOOT = FaultyFoot(41, Fault.LIGHT, skill=0.35)
"""A foot that is at single blips and runs: while easing off, too light a brake is none to tell."""


def played(foot: FaultyFoot, history: History, seed: int) -> list[Fault | None]:
    """Faults of the twelve blips of one more day, as they are read."""
    entered = practised(replace(foot, seed=seed), history, 12)
    return [one.level.kind.fault(one.verdict) for one in entered if not one.verdict.void]


def test_a_fault_is_worked_on_from_the_day_it_is_told_until_its_share_has_halved(
    tmp_path: Path,
) -> None:
    faults: list[Fault | None] = []
    was: float | None = None
    since: date | None = None
    ended: int | None = None

    with open_history(tmp_path, []) as history:
        for number in range(14):
            day = DAY + timedelta(days=number)
            foot = FOOT if number < 5 else replace(FOOT, share=0.05)
            faults += played(foot, history, 400 + number)
            focus = refresh_focus(history, day)
            newest = faults[-40:]
            share = newest.count(Fault.LIGHT) / len(newest)
            if ended is not None:
                assert focus is None
            elif was is None:
                told = diagnose(newest)
                assert (focus is None) == (told is None)
                if focus is not None:
                    was, since = share, day
            elif share <= was / 2:
                ended = number
                assert focus is None
            if focus is not None:
                assert (focus.fault, focus.since) == (Fault.LIGHT, since)
                assert (focus.was.share, focus.now.share) == (was, share)
            assert focus_now(history) == focus

    assert was is not None
    assert ended is not None
    assert ended > 5


def test_a_fault_that_stays_is_worked_on_for_as_long_as_it_stays(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        found = []
        for number in range(9):
            played(FOOT, history, 500 + number)
            found.append(refresh_focus(history, DAY + timedelta(days=number)))

    first = next(number for number, focus in enumerate(found) if focus is not None)
    assert first <= 3
    assert {focus.since for focus in found[first:] if focus is not None} == {
        DAY + timedelta(days=first)
    }
    assert None not in found[first:]
