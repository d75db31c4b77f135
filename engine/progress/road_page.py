"""Page of the history on drill and road: its sentences, and its chart of drives over the days."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from engine.kit import charts_marks, theme
from engine.kit.canvas import Point
from engine.kit.charts import Area, Axes, Paper, framed, scale_across, scale_up, top_of
from engine.kit.charts_dates import day_marks, full_words
from engine.practice.level_days import FEWEST_DAYS as FEWEST_LEVEL_DAYS
from engine.practice.level_days import NEW_DAYS
from engine.progress.progress import Progress
from engine.road.course import DriveDay, RoadCourse
from engine.road.transfer import ALIKE, DAYS, SINGLE

EASED_LATER = f"Easing off comes once a level was played on {NEW_DAYS + FEWEST_LEVEL_DAYS} days."
"""Sentence in place of the dip while easing off, which is told of level-days."""
FEWEST_DAYS = 7
"""Smallest number of days that the axis of the chart spans, so that first marks stand apart."""
LARGEST_MARK, SMALLEST_MARK = 11.0, 4.0
"""Largest and smallest radius of the mark of a drive, in canvas units."""
RING = 4.0
"""Width of the ring that marks single blips, in canvas units."""


def has_drives(progress: Progress) -> bool:
    """Whether there is a drive to draw."""
    return bool(progress.road.drives)


def road_words(progress: Progress) -> list[str]:
    """Sentences on the newest drive beside the drills, and on what is left out."""
    course = progress.road
    if not course.drives:
        return list(_left_out(course))
    last = course.drives[-1]
    eased, single = last.drills.get(ALIKE), last.drills.get(SINGLE)
    beside = "" if eased is None else f", easing off {eased:.1f}"
    lines = [f"Road {last.road.dip:.1f} points{beside} (newest drive, {full_words(last.day)})."]
    if eased is None:
        lines.append(EASED_LATER)
    if single is not None:
        lines.append(f"Single blips {single:.1f}, measured otherwise: against what was held.")
    if last.drills:
        lines.append(f"Drills: today's level, the last {DAYS} days with practice before a drive.")
    return [*lines, *_left_out(course)]


def road_chart(paper: Paper, area: Area, progress: Progress) -> None:
    """Draw each drive as a dot with its middle half, and the drills of the days before it.

    There is at least one drive.
    """
    drives, today = progress.road.drives, progress.today
    first = min(drives[0].day, today - timedelta(days=FEWEST_DAYS - 1))
    most = max(max(drive.road.high, *drive.drills.values(), 0.0) for drive in drives)
    frame = framed(area)
    axes = Axes(frame, first.toordinal() - 0.5, today.toordinal() + 0.5, 0.0, top_of(most))
    scale_up(paper, axes, "points")
    samples = [(charts_marks.dot, "a drive"), (charts_marks.bar, "its middle half")]
    if any(ALIKE in drive.drills for drive in drives):
        samples.append((charts_marks.dashes, "easing off"))
    if any(SINGLE in drive.drills for drive in drives):
        samples.append((_ring, "single blips, measured otherwise"))
    charts_marks.legend(paper, axes, 0, samples)
    radius = _radius(axes, drives)
    for drive in drives:
        x = axes.across(drive.day.toordinal())
        charts_marks.middle_half(
            paper, x, (axes.down(drive.road.high), axes.down(drive.road.low)), radius
        )
    eased = _points(axes, drives, ALIKE)
    if len(eased) > 1:
        charts_marks.dashed(paper, eased, theme.TEXT, 5)
    for x, y in eased:
        paper.line((x - 2 * radius, y), (x + 2 * radius, y), theme.TEXT, 5)
    for centre in _points(axes, drives, SINGLE):
        paper.disc(centre, radius, theme.QUIET, RING)
    for drive in drives:
        paper.disc(axes.place(drive.day.toordinal(), drive.road.dip), radius, theme.BRAKE)
    scale_across(paper, axes, day_marks(first, today))


def _left_out(course: RoadCourse) -> Iterator[str]:
    """Sentences on the drives that are left out, and why."""
    if course.other_scale:
        yield f"{_drives(course.other_scale)} left out: the brake had another scale."
    if course.other_rigs:
        yield f"{_drives(course.other_rigs)} left out: driven with other pedals."
    if course.older:
        yield (
            f"{_drives(course.older)} left out: an older measure. "
            "`stillfoot score FILE --keep` measures again."
        )


def _drives(count: int) -> str:
    return "1 drive" if count == 1 else f"{count} drives"


def _points(axes: Axes, drives: tuple[DriveDay, ...], kind: str) -> list[Point]:
    """Places in the chart of one kind of drill beside the drives that it stands beside."""
    return [
        axes.place(drive.day.toordinal(), drive.drills[kind])
        for drive in drives
        if kind in drive.drills
    ]


def _radius(axes: Axes, drives: tuple[DriveDay, ...]) -> float:
    """Radius of marks that keeps neighbours apart where they are evenly spread."""
    xs = [axes.across(drive.day.toordinal()) for drive in drives]
    apart = (xs[-1] - xs[0]) / (len(xs) - 1) if len(xs) > 1 else LARGEST_MARK * 3
    return min(max(apart / 3, SMALLEST_MARK), LARGEST_MARK)


def _ring(paper: Paper, centre: Point) -> None:
    """Draw a ring in a legend, as the sample of single blips."""
    paper.disc(centre, charts_marks.DOT, theme.QUIET, RING)
