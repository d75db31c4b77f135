"""Reveal: the verdict on one repetition as a word, a sentence, figures and a picture."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from drills.deviation import Deviation
from drills.digits import apart, decimals
from drills.health.words import LUCK
from drills.level import Level
from drills.measures.catalogue import CATALOGUE
from drills.measures.jumps import Jump
from drills.measures.sampling import NOTED_GAP, Sampling
from drills.score import Verdict, within
from engine.drill.guesses import is_right
from engine.kit import deviation_plot, theme, widgets
from engine.kit.base import Place
from engine.kit.canvas import Canvas
from engine.kit.timed_screen import TimedOutcome, TimedScreen
from engine.kit.widgets import Figure

MOST_FIGURES = 5
"""Largest number of figures side by side in a reveal, including the score."""
TIPPED = 2.6
"""Position of the bubble for a repetition that was not clean; 0 is the middle, 1 at a line."""
STAY_CLEAN = 2.0
"""Seconds that the reveal of a clean repetition stays up."""
STAY = 4.0
"""Seconds that the reveal of any other repetition stays up: its sentence takes longer to read."""
TOP = 476
"""Top of the picture of the deviation in a reveal, in canvas units."""
BOTTOM = 1000
"""Bottom of the picture of the deviation in a reveal, in canvas units."""


class Reveal(TimedScreen[TimedOutcome]):
    """Screen with the verdict on one repetition; ends by itself after a few seconds."""

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
        jumps: Sequence[Jump] = (),
        *,
        is_luck: bool = False,
    ) -> None:
        """`now` is the picture of this repetition, `earlier` those of some before it.

        `guess` is what the player guessed before the reveal, in points; None without a guess.
        `jumps` are those of the pedals that were left out; `is_luck` is whether the level is partly
        luck with them.
        """
        super().__init__(
            TimedOutcome.ON, TimedOutcome.MENU, STAY_CLEAN if verdict.clean else STAY, place
        )
        self._level = level
        self._verdict = verdict
        self._now = now
        self._earlier = [picture for picture in earlier if picture.is_measured]
        self._number = place.number
        self._sampling = sampling
        self._guess = guess
        self._jumps = jumps
        self._is_luck = is_luck

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: number of the repetition, and reason of the verdict."""
        reason = self._verdict.reason.value
        return {"rep": self._number, "reason": reason}

    def picture(self, canvas: Canvas) -> None:
        """Draw the verdict as a word, a sentence and figures, and the brake's deviation."""
        verdict, level = self._verdict, self._level
        word = "Does not count" if verdict.void else "Clean" if verdict.clean else "Not clean"
        canvas.text(word, (theme.MARGIN, 60), theme.HUGE * 0.8)
        lean = level.kind.lean(level, verdict)
        if lean is not None and not verdict.void:
            at = (theme.WIDTH - theme.MARGIN - 180, 110)
            widgets.level(canvas, at, 360, TIPPED * lean)
        width = theme.WIDTH - 2 * theme.MARGIN
        sentence = level.kind.sentence(level, verdict)
        canvas.text(sentence, (theme.MARGIN, 190), theme.BODY + 2, width=width)
        if not verdict.void:
            row = figures(level, verdict, self._sampling)
            if self._guess is not None:
                row = [*row[: MOST_FIGURES - 1], guess_figure(level, verdict, self._guess)]
            widgets.figures(canvas, (theme.MARGIN, 316), width, row)
        if self._now is not None:
            before = self._earlier if self._now.is_measured else []
            corner = (theme.MARGIN, TOP)
            deviation_plot.deviation(canvas, corner, (width, BOTTOM - TOP), self._now, before)

    @property
    def note(self) -> str:
        """Note about what the pedals had to do with the verdict; empty for nothing.

        There is room for one: jumps that were left out, or else luck, or else a gap between reads.
        """
        gap = None if self._sampling is None else self._sampling.gap_max
        if self._verdict.void:
            return ""
        if self._jumps:
            pedal, times = self._jumps[-1].pedal, len(self._jumps)
            return f"{pedal} jumped {'once' if times == 1 else f'{times} times'}, left out    "
        if self._is_luck:
            return f"{LUCK}    "
        return "" if gap is None or gap <= NOTED_GAP else f"read with a gap of {gap:.2f} s    "


def figures(level: Level, verdict: Verdict, sampling: Sampling | None = None) -> list[Figure]:
    """Figures of a reveal: the score, then what was missed or else the main measures.

    Measures with a limit come first; a measure over its limit says by how much, and is marked.
    """
    row = [Figure("Score", verdict.points, "of 100")]
    missed = level.kind.missed(level, verdict)
    if missed is not None:
        name, actual, asked = missed
        return [*row, Figure(name, actual, asked, failed=True)]
    candidates = [
        *([verdict.worst] if verdict.over else []),
        *level.limits,
        *level.kind.reveal_measures,
    ]
    names = [name for name in dict.fromkeys(candidates) if name in verdict.measures]
    finest = decimals(None if sampling is None else sampling.report_interval)
    return [*row, *(_figure(name, verdict, level, finest) for name in names[: MOST_FIGURES - 1])]


def guess_figure(level: Level, verdict: Verdict, guess: float) -> Figure:
    """Figure that shows the player's guess, and beside it the measured value."""
    name = level.kind.guess_measure
    was, measure = verdict.measures.get(name) or 0.0, CATALOGUE[name]
    answer = f"it was {measure.written(was)}"
    right = "right: " if is_right(guess, was) else ""
    return Figure("You said", measure.written(guess), f"{right}{answer}")


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
