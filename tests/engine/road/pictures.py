"""Screens of recorded drives: the first drive, one of many, and those with a warning."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import Any

import numpy as np

from drills.deviation import AROUND_BLIP, Deviation
from drills.measures.chord import Unchorded
from drills.measures.definition import DEFINITION
from drills.trace import Sample, nanoseconds
from engine.kit.base import Screen
from engine.pedals.rig import Means
from engine.practice.remeasuring import Remeasuring
from engine.road.before_screens import BeforeDrive, EarlierDrives, NotRecorded
from engine.road.blips import RoadBlip
from engine.road.drive import Drive
from engine.road.recorder import DriveRecorder
from engine.road.recording_screen import RecordingDrive
from engine.road.screen_words import GONE
from engine.road.screens import Road, RoadInWords, RoadShown
from engine.road.transfer import Drilled, comparison
from tests.engine.five.pictures import FIVE, more
from tests.engine.progress.made_weeks import blip

NOISY = "the brake of this recording is noisy, 1.0 points: it makes dips deeper"
LAST = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)
GAPS = "14 gaps over 0.1 s, the longest 128.250 s at 1812.250 s"


def a_drive(
    *runs: Sequence[float | Unchorded], days_ago: int = 0, seconds: float = 1834.0
) -> Drive:
    """A drive of some runs, each given by the dips of its blips or the reasons they have none."""
    blips = tuple(
        RoadBlip(number, place, 10.0 * number + place, 62.0, reason=dip.value)
        if isinstance(dip, Unchorded)
        else RoadBlip(
            *(number, place, 10.0 * number + place, 62.0),
            *(dip, 2.0, -4.0, dip - 6.0),
            extra_distance=dip / 8,
        )
        for number, run in enumerate(runs, start=1)
        for place, dip in enumerate(run, start=1)
    )
    at = LAST - timedelta(days=days_ago)
    return Drive(at, f"{at:%Y-%m-%d %H.%M.%S}.csv", f"{days_ago:064d}", seconds, blips)


def long_drive(days_ago: int = 0, worse: float = 0.0) -> Drive:
    """A drive of many runs of up to four blips, the later ones worse; two are not scored."""
    runs = [
        [8.1 + worse + 2.3 * place + (number * 7 % 11) / 2.0 for place in range(2 + number % 3)]
        for number in range(24)
    ]
    return a_drive(*runs, [Unchorded.RELEASED], [Unchorded.NEXT, 4.0], days_ago=days_ago)


def recording(seconds: float, *, buttons: bool = False, away: bool = False) -> RecordingDrive:
    """The screen of a recording after some seconds."""
    recorder = DriveRecorder(clutch=False, date=lambda: 0)

    def look(sample: Sample | None, now: int) -> bool:
        recorder.take(sample, now)
        return True

    screen = RecordingDrive(recorder, look, "2024-05-17 20.15.00.csv")
    screen.on_means(Means(feet=True, buttons=buttons))
    for now in (0, nanoseconds(seconds)):
        screen.on_sample(None if away else Sample(now, 0.0, 0.0), now)
    return screen


def drills(dips: Sequence[float], days: int = 10) -> Drilled:
    """Drills with such dips, played on so many days."""
    return Drilled(tuple(dips), tuple(range(1, len(dips) + 1)), days)


def curve(depth: float, ends: float = 0.55) -> Deviation:
    """Brake curve of a blip that dips by a depth in points under its chord."""
    time = np.arange(-100, round(1000 * ends)) / 1000
    dip = -depth * np.exp(-(((time - 0.15) / 0.07) ** 2))
    return Deviation(time, dip, AROUND_BLIP, zero="straight", throttle=np.zeros_like(time))


def curves(drive: Drive) -> tuple[Deviation, ...]:
    """Brake curves of the scored blips of a drive, some longer than others."""
    return tuple(curve(dip, 0.4 + number % 5 / 20) for number, dip in enumerate(drive.dips))


def road_screens() -> Mapping[str, Screen[Any]]:
    """All screens of drives by a name."""
    drive, first = long_drive(), a_drive([6.0], [9.25], [7.5])
    single = drills([5.0 + (number * 5 % 7) / 2 for number in range(140)])
    easing = [7.0 + (number * 5 % 7) / 2 for number in range(46)]
    eased = comparison("trail", drive.dips, drills(easing))
    beside = (eased, comparison("blip", drive.dips, single))
    few = (comparison("trail", first.dips, drills([])), comparison("blip", first.dips, single))
    earlier = [long_drive(40 - 6 * number, 9.0 - number) for number in range(6)]
    older = [replace(one, definition=DEFINITION - 1) for one in earlier[:4]] + earlier[4:]
    alike = (
        comparison("trail", drive.dips, drills(drive.dips)),
        comparison("blip", drive.dips, drills(easing[:3], 1)),
    )
    drawn = Road(drive, beside, (), None, curves(drive), ("easing off in the drills", curve(6.0)))
    single_beside = ("single drill blips, against what was held", blip(9.0))
    return {
        "more with drives": more(sound="medium", five=FIVE),
        "before first drive": BeforeDrive([]),
        "before drive": BeforeDrive([*earlier, a_drive([Unchorded.RELEASED], days_ago=1)]),
        "before drive older": BeforeDrive([*older, drive]),
        "recording": recording(0.0),
        "recording long": recording(3 * 3600 + 754.0, buttons=True),
        "recording unplugged": recording(42.0, away=True),
        "earlier drives": EarlierDrives([*older, *earlier, drive]),
        "road": RoadShown(drawn),
        "road warned": RoadShown(replace(drawn, beside=alike, warnings=(NOISY, GAPS))),
        "road first": RoadShown(Road(first, few, curves=curves(first), drill=single_beside)),
        "road without drills": RoadShown(Road(first, curves=curves(first)[:1])),
        "road without curves": RoadShown(Road(drive, beside, (GONE,))),
        "road not scored": RoadShown(Road(a_drive([Unchorded.GAP]))),
        "road without blips": RoadShown(Road(a_drive())),
        "road in words": RoadInWords(drawn, earlier),
        "road in words warned": RoadInWords(replace(drawn, warnings=(NOISY, GAPS)), earlier),
        "road in words after older": RoadInWords(Road(first, few), older),
        "road in words remeasured": RoadInWords(
            Road(drive, waits=Remeasuring(123456, 219600)), earlier
        ),
        "road in words without blips": RoadInWords(Road(a_drive()), earlier[:1]),
        "not recorded": NotRecorded(
            "/home/somebody/.local/share/stillfoot/drives/2024-05-17 20.15.00.csv: expected a "
            "file to write to, found: No space left on device"
        ),
    }
