"""Page of the history on drill and road: its sentences, and its chart of drives over the days."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from drills.number_words import counted
from engine.date_words import dated_words
from engine.kit import charts_marks, theme
from engine.kit.area import Area
from engine.kit.charts import Axes, Paper, framed, scale_across, scale_up, top_of
from engine.kit.charts_dates import axis_marks
from engine.practice.level_days import FEWEST_DAYS as FEWEST_LEVEL_DAYS
from engine.practice.level_days import NEW_DAYS
from engine.progress.charts_days import FEWEST_DAYS, draw_course
from engine.progress.page_words import PageWords
from engine.progress.progress import Progress
from engine.road.course import RoadCourse
from engine.road.transfer import ALIKE, DAYS, SINGLE

EASED_LATER = f"Easing off comes once a level was played on {NEW_DAYS + FEWEST_LEVEL_DAYS} days."
"""Sentence in place of the dip while easing off, which is told of level-days."""
REACH = 9.0
"""Half the length of the mark of the drills beside a single drive, in canvas units."""


def has_drives(progress: Progress) -> bool:
    """Whether there is a drive to draw."""
    return bool(progress.road.drives)


def road_words(progress: Progress) -> PageWords:
    """What the newest drive shows beside the drills, and what is left out."""
    course = progress.road
    if not course.drives:
        return PageWords(figures=tuple(_left_out(course)))
    last = course.drives[-1]
    eased, single = last.drills.get(ALIKE), last.drills.get(SINGLE)
    newest = f"Newest drive: {dated_words(last.day, progress.today)}."
    road = f"Typical dip on the road: {last.road.dip:.1f} points"
    if eased is None:
        lead, line = f"{road}.", f"{newest} {EASED_LATER}"
    else:
        lead, line = f"{road}, easing off {eased:.1f}.", f"{newest} Easing off is from your drills."
    figures = [f"{counted(len(course.drives), 'day')} with drives."]
    if single is not None:
        figures.append(f"Single blips {single:.1f}, against what was held.")
    if last.drills:
        figures.append(f"Drills: today's level, the last {DAYS} days with practice before a drive.")
    return PageWords(lead, line, (*figures, *_left_out(course)))


def road_chart(paper: Paper, area: Area, progress: Progress) -> None:
    """Draw the drives as a line on the shade of their middle half, and easing off beside them.

    There is at least one drive.
    """
    drives, today = progress.road.drives, progress.today
    first = drives[0].day
    last = max(today, first + timedelta(days=FEWEST_DAYS - 1))
    eased = [drive.drills[ALIKE] for drive in drives if ALIKE in drive.drills]
    most = max([drive.road.high for drive in drives] + eased + [0.0])
    frame = framed(area)
    axes = Axes(frame, first.toordinal() - 0.5, last.toordinal() + 0.5, 0.0, top_of(most))
    scale_up(paper, axes, "points")
    samples = [(charts_marks.shade, "drives, and the middle half of their blips")]
    if eased:
        samples.append((charts_marks.dashes, "easing off in drills"))
    charts_marks.legend(paper, axes, 0, samples)
    draw_course(
        paper,
        axes,
        [
            (drive.day.toordinal(), drive.road.low, drive.road.dip, drive.road.high)
            for drive in drives
        ],
    )
    places = [
        axes.place(drive.day.toordinal(), drive.drills[ALIKE])
        for drive in drives
        if ALIKE in drive.drills
    ]
    if len(places) > 1:
        charts_marks.dashed(paper, places, theme.TEXT, 5)
    for x, y in places if len(places) == 1 else ():
        paper.line((x - REACH, y), (x + REACH, y), theme.TEXT, 5)
    scale_across(paper, axes, axis_marks(first, today))


def _left_out(course: RoadCourse) -> Iterator[str]:
    """Sentences on the drives that are left out, and why."""
    if course.other_scale:
        yield f"{counted(course.other_scale, 'drive')} left out: the brake had another scale."
    if course.other_rigs:
        yield f"{counted(course.other_rigs, 'drive')} left out: driven with other pedals."
    if course.older:
        yield (
            f"{counted(course.older, 'drive')} left out: an older measure. "
            "`stillfoot score FILE --keep` measures again."
        )
