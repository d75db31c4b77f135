"""Page of the history on what is pressed when a weight is asked: its sentences and its chart."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, floor

from drills.number_words import counted
from engine.drill.sense_words import pressure_words
from engine.kit import charts_marks, theme
from engine.kit.area import Area
from engine.kit.canvas import Point
from engine.kit.charts import Axes, Paper, framed, scale_across, scale_up
from engine.practice.sense import LEAST, ErrorAt, Estimate, Sense, Squeeze
from engine.practice.size_made import SizeMade
from engine.progress.page_words import PageWords
from engine.progress.progress import Progress
from engine.progress.scale_words import scale_words

TENS = 10
"""Step to which the ends of the scales of the chart are rounded, in %."""
DOT = 7.0
"""Radius of the dot of a squeeze, in canvas units."""
LINE = 6.0
"""Width of the line of the player's sense, in canvas units."""
PERFECT = 4.0
"""Width of the dashed line of a perfect sense, in canvas units."""
LONE = 30.0
"""Half-width of the shade where one weight alone was asked, in canvas units."""


def sense_words(progress: Progress) -> PageWords:
    """Whether the player presses what is asked; beside it what is asked more, and blips' size."""
    sense, size = progress.sense, progress.size
    blips = "" if size is None else size_words(size)
    if not progress.squeezes:
        return PageWords(figures=(blips, *_of_blips(size)) if blips else ())
    if sense is None:
        few = f"Too early to say: {len(progress.squeezes)} of {LEAST} squeezes."
        return PageWords(few, blips, (*_scale(progress), *_of_blips(size)))
    return PageWords(
        _lead(sense),
        " ".join(filter(None, (_asked_more(sense, progress.squeezes), blips))),
        (*_scale(progress), *_figures(sense), *_of_blips(size)),
    )


def size_words(size: SizeMade) -> str:
    """Sentence on the size of blips, such as "Blips: asked 60, made 48 ± 11, too small."."""
    told = ", too small" if size.is_small else ", too big" if size.is_big else ""
    return f"Blips: asked {size.asked:.0f}, made {size.mean:.0f} ± {size.spread:.0f}{told}."


def _lead(sense: Sense) -> str:
    if sense.fault is not None:
        return pressure_words(sense.fault)
    if sense.is_right:
        you = "You" if sense.gain is not None else f"At {sense.errors[0].weight:.0f} you"
        return f"{you} press what you mean, within {sense.furthest} points."
    return f"No error is sure: it may be {sense.furthest} points."


def _asked_more(sense: Sense, squeezes: Sequence[Squeeze]) -> str:
    """Which weight is asked more often; or that one alone was asked, or nearly so, or nothing."""
    if sense.gain is None:
        asked = {f"{one.asked:.0f}" for one in squeezes}
        only = "Only" if len(asked) == 1 else "Mostly about"
        weight = f"{sense.errors[0].weight:.0f}"
        return f"{only} {weight} was asked: other weights are not known."
    more = sense.asked_more
    return "" if more is None else f"Squeezes ask for {more:.0f} more often."


def _scale(progress: Progress) -> tuple[str, ...]:
    return tuple(scale_words(progress))


def _figures(sense: Sense) -> Iterator[str]:
    """What the line of the player's sense is made of, and the errors at its ends."""
    played = counted(sense.squeezes, "squeeze"), counted(sense.days, "day")
    yield f"From {played[0]} on {played[1]}."
    if sense.gain is not None and sense.offset is not None:
        yield f"Gain {_interval(sense.gain, 2)}; 1 is perfect."
        yield f"Offset {_interval(sense.offset, 1)} points; 0 is perfect."
    for one in {one.weight: one for one in (sense.errors[0], sense.errors[-1])}.values():
        yield _error_words(one)


def _error_words(one: ErrorAt) -> str:
    return f"Error at {one.weight:.0f}: {_interval(one.error, 1)} points."


def _interval(one: Estimate, digits: int) -> str:
    """A value with its interval, such as "0.85, likely 0.78 to 0.92"."""
    value, low, high = (f"{round(end, digits) + 0.0:.{digits}f}" for end in _ends(one))
    return f"{value}, likely {low} to {high}"


def _ends(one: Estimate) -> tuple[float, float, float]:
    return one.value, one.low, one.high


def _of_blips(size: SizeMade | None) -> tuple[str, ...]:
    if size is None:
        return ()
    return (
        f"Mean of your last {size.blips} blips: likely {size.low:.0f} to {size.high:.0f} %.",
        "Blips repeated for their size are among them.",
    )


def sense_chart(paper: Paper, area: Area, progress: Progress) -> None:
    """Draw what was pressed over what was asked, with the line of a perfect sense, dashed.

    There is at least one squeeze. The player's own line comes, on its shade, once it is told.
    """
    squeezes, sense = progress.squeezes, progress.sense
    asked = [one.asked for one in squeezes]
    both = [*asked, *(one.pressed for one in squeezes)]
    axes = Axes(
        framed(area),
        *_tens(min(asked) - 1, max(asked) + 1),
        *_tens(max(min(both), 0.0), min(max(both), 100.0)),
    )
    samples = [
        (_dot, "a squeeze"),
        *(
            []
            if sense is None
            else [(charts_marks.shade, f"your {_line(sense)}, and its likely range")]
        ),
        (charts_marks.dashes, "perfect"),
    ]
    scale_up(paper, axes, "% pressed")
    charts_marks.legend(paper, axes, 0.0, samples)
    weights = range(round(axes.first), round(axes.last) + 1, TENS)
    labels = [f"{weight}" for weight in weights[:-1]]
    scale_across(paper, axes, [*zip(weights, [*labels, f"{weights[-1]} % asked"], strict=True)])
    if sense is not None:
        _spread(paper, axes, sense)
    for one in squeezes:
        _dot(paper, axes.place(one.asked, one.pressed))
    ends = max(axes.first, axes.low), min(axes.last, axes.high)
    perfect = [axes.place(end, end) for end in ends]
    charts_marks.dashed(paper, perfect, theme.TEXT, PERFECT)
    if sense is not None:
        line = [axes.place(one.weight, one.weight + one.error.value) for one in sense.errors]
        if len(line) == 1:
            paper.disc(line[0], 2 * DOT, theme.BRAKE)
        else:
            paper.curve(line, theme.BRAKE, LINE)


def _dot(paper: Paper, centre: Point) -> None:
    """Draw the sample of a squeeze in the legend."""
    paper.disc(centre, DOT, theme.EARLIER)


def _line(sense: Sense) -> str:
    return "mean" if sense.gain is None else "line"


def _spread(paper: Paper, axes: Axes, sense: Sense) -> None:
    """Shade the interval of the player's line."""
    rows = [
        (
            axes.across(one.weight),
            axes.down(one.weight + one.error.high),
            axes.down(one.weight + one.error.low),
        )
        for one in sense.errors
    ]
    charts_marks.spread(paper, rows, LONE)


def _tens(low: float, high: float) -> tuple[float, float]:
    """Whole tens that contain a range, at least two of them apart."""
    least = TENS * floor(low / TENS)
    return float(least), float(max(TENS * ceil(high / TENS), least + 2 * TENS))
