"""The verdict on one repetition: a word, a sentence, a few numbers and a picture."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from drills.deviation import Deviation
from drills.digits import apart, decimals
from drills.level import Level
from drills.measures.catalogue import CATALOGUE
from drills.measures.sampling import NOTED_GAP, Sampling
from drills.score import Verdict, within
from engine.drill.guesses import is_right
from engine.kit import deviation_plot, theme, widgets
from engine.kit.base import Place
from engine.kit.canvas import Canvas
from engine.kit.timed_screen import TimedOutcome, TimedScreen
from engine.kit.widgets import Figure

MOST_FIGURES = 5
"""figures in a row, the score included."""
TIPPED = 2.6
"""1, lean of the bubble where a repetition was not clean: well past a line."""
STAY_CLEAN = 2.0
"""s it stays where there is nothing to change."""
STAY = 4.0
"""s it stays where there is a sentence to be read."""
TOP = 476
"""units from the top, where the picture begins."""
BOTTOM = 1000
"""units from the top, where it ends."""


class Reveal(TimedScreen[TimedOutcome]):
    """Ends with what follows."""

    name = "reveal"

    def __init__(
        self,
        level: Level,
        verdict: Verdict,
        now: Deviation | None,
        earlier: Sequence[Deviation],
        place: Place,
        sampling: Sampling | None = None,
        guess: float | None = None,
    ) -> None:
        """`now` is the picture of this repetition, `earlier` are those of some before it.

        `guess` is what the player took its guessed measure for, in points.
        """
        super().__init__(
            TimedOutcome.ON, TimedOutcome.MENU, STAY_CLEAN if verdict.clean else STAY, place
        )
        self._level = level
        self._verdict = verdict
        self._now = now
        self._earlier = [one for one in earlier if one.is_measured]
        self._number = place.number
        self._sampling = sampling
        self._guess = guess

    def details(self) -> Mapping[str, object]:
        """The verdict in short."""
        reason = self._verdict.reason.value
        return {"rep": self._number, "reason": reason}

    def picture(self, canvas: Canvas) -> None:
        """From the word down to the picture."""
        verdict, level = self._verdict, self._level
        word = "Does not count" if verdict.void else "Clean" if verdict.clean else "Not clean"
        canvas.text(word, (theme.MARGIN, 60), theme.HUGE * 0.8)
        lean = level.kind.lean(level, verdict)
        if lean is not None and not verdict.void:
            at = (theme.WIDTH - theme.MARGIN - 180, 110)
            widgets.level(canvas, at, 360, TIPPED * lean)
        width = theme.WIDTH - 2 * theme.MARGIN
        said = level.kind.sentence(level, verdict)
        canvas.text(said, (theme.MARGIN, 190), theme.BODY + 2, width=width)
        if not verdict.void:
            row = figures(level, verdict, self._sampling)
            if self._guess is not None:
                row = [*row[: MOST_FIGURES - 1], guessed(level, verdict, self._guess)]
            widgets.figures(canvas, (theme.MARGIN, 316), width, row)
        if self._now is not None:
            before = self._earlier if self._now.is_measured else []
            corner = (theme.MARGIN, TOP)
            deviation_plot.deviation(canvas, corner, (width, BOTTOM - TOP), self._now, before)

    @property
    def note(self) -> str:
        """What was odd about how it was read."""
        gap = None if self._sampling is None else self._sampling.gap_max
        if gap is None or gap <= NOTED_GAP or self._verdict.void:
            return ""
        return f"read with a gap of {gap:.2f} s    "


def figures(level: Level, verdict: Verdict, sampling: Sampling | None = None) -> list[Figure]:
    """The score, then what was asked and not done, or the measures worth a place.

    Those with a limit come first; one over its limit says by how much, and is marked.
    """
    row = [Figure("Score", verdict.points, "of 100")]
    missed = level.kind.missed(level, verdict)
    if missed is not None:
        name, came, asked = missed
        return [*row, Figure(name, came, asked, failed=True)]
    shown = [*([verdict.worst] if verdict.over else []), *level.limits, *level.kind.reveal_measures]
    names = [name for name in dict.fromkeys(shown) if name in verdict.measures]
    finest = decimals(None if sampling is None else sampling.report_interval)
    return [*row, *(_figure(name, verdict, level, finest) for name in names[: MOST_FIGURES - 1])]


def guessed(level: Level, verdict: Verdict, guess: float) -> Figure:
    """What was guessed, and how far from what is said beside it."""
    name = level.kind.guess_measure
    was, measure = verdict.measures.get(name) or 0.0, CATALOGUE[name]
    shown = f"it was {measure.written(was)}"
    right = "right: " if is_right(guess, was) else ""
    return Figure("You said", measure.written(guess), f"{right}{shown}")


def _figure(name: str, verdict: Verdict, level: Level, finest: int) -> Figure:
    measure, value, limit = CATALOGUE[name], verdict.measures[name], level.limits.get(name)
    written = measure.written(value, finest)
    if limit is None:
        return Figure(measure.label, written)
    allowed = measure.with_unit(f"{limit:g}")
    if within(value, limit):
        return Figure(measure.label, written, f"within {allowed}")
    over = written if value is None else f"{apart(abs(value), limit)[1]} over"
    return Figure(measure.label, over, f"the limit, {allowed}", failed=True)
