"""`Day`: what a session of five minutes came to, and what its pictures are drawn from."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from drills.deviation import Deviation
from drills.level import Level
from engine.drill.set_words import SAVED
from engine.five.day_words import (
    NOTHING,
    NOTHING_NEW,
    Line,
    aims_words,
    cost_line,
    days_line,
    news_words,
    next_visit_line,
    rest_line,
    steadiness_line,
    still_words,
)
from engine.kit.repetition_marks import Mark
from engine.kit.steadiness_view import SteadinessView
from engine.ladder.ladder import LadderStage
from engine.ladder.rise import Rise
from engine.practice.counting_cost import CostOverTime
from engine.practice.results import Streaks
from engine.practice.steadiness import SteadinessStep

MOST_NEWS = 4
"""Most sentences about what went better in a session, as a count."""


@dataclass(frozen=True)
class Part:
    """One part of the day's session, such as its retention checks."""

    name: str
    """Name of this part of the session on the screen, such as "check-up"."""
    marks: tuple[Mark, ...]
    """Mark of each repetition in this part of the session, in the order they were played."""
    title: str = ""
    """Title of its level, if it is of one level and worth a name; otherwise empty."""
    aim: str = ""
    """What its repetitions were for, as it stands after their number, such as "for check-ups";
    empty where that is not worth a word."""
    is_staircase: bool = False
    """Whether its repetitions are inside or outside a tolerance, and none of them is missed."""

    @property
    def label(self) -> str:
        """Name of this part and the title of its level, such as "new: Closer to the brake"."""
        return f"{self.name}: {self.title}" if self.title else self.name

    @property
    def counted(self) -> int:
        """Repetitions of this part that are not void, as a count."""
        return len(self.marks) - self.marks.count(Mark.VOID)

    @property
    def inside(self) -> str:
        """Repetitions inside the tolerance, of those that count, in words."""
        return f"{self.marks.count(Mark.CLEAN)} of {self.counted} inside"


@dataclass(frozen=True)
class BestScore:
    """New best score of a level."""

    score: int
    """The score, 0 to 100, rounded down."""
    level: str
    """Id of the level."""
    title: str
    """Title of the level."""


@dataclass(frozen=True)
class NewLimit:
    """New best of the personal limit of a level."""

    factor: float
    """The best, a factor on the level's limits."""
    title: str
    """Title of the level."""


@dataclass(frozen=True)
class DayViews:
    """What the pictures of a day are drawn from."""

    today: date
    """Local day on which the session ended."""
    days: tuple[tuple[date, int], ...]
    """Days practised with their repetitions that counted, in order."""
    stages: Sequence[LadderStage]
    """Stages of the ladder after the session."""
    following: Level
    """Level to practise next."""
    rise: Rise | None = None
    """What moved on the climb in the session; None if nothing did."""
    step: SteadinessStep | None = None
    """Step to a narrower steadiness that is told since the session; None for none."""
    curves: Mapping[str, Sequence[Deviation]] = field(default_factory=dict)
    """Brake curves of the session's repetitions, oldest first, by the id of their level."""


@dataclass(frozen=True)
class Day:
    """Summary of a session of five minutes, for the screen at its end."""

    parts: tuple[Part, ...]
    """Parts of the session that were played, in the order of the five minutes."""
    seconds: float
    """Seconds practised in the session."""
    clean: int
    """Clean repetitions in the session, as a count."""
    counted: int
    """Repetitions in the session that counted (not void, played by feet), as a count."""
    retained: tuple[str, ...]
    """Titles of the levels retained in the session's retention checks."""
    passed: tuple[str, ...]
    """Titles of the levels passed in the session."""
    beaten: tuple[str, ...]
    """Sentences about the best scores and streaks beaten in the session."""
    steadiness: SteadinessView | None
    """Steadiness after the session; None if there are too few blips to compute it."""
    streaks: Streaks
    """Streaks of the player after the session."""
    due_tomorrow: int
    """Levels that tomorrow's session has time to check for retention, as a count."""
    all_due: int
    """Levels that are due for a retention check tomorrow, as a count."""
    is_early: bool = False
    """Whether the session was left before its time was over."""
    blips: int | None = None
    """Blips that count for steadiness up to now, as a count; None where that is not known."""
    still: tuple[int, int] | None = None
    """After a long rest, levels that were still retained and those whose check was decided, as
    counts; None without such a rest or such a check."""
    tomorrow: str = ""
    """What tomorrow's session plays, in words; empty where it has no time for a repetition."""
    is_longest: bool = False
    """Whether the day of the session made the longest streak of days longer, and no session of
    five minutes of that day has ended before."""
    past_midnight: bool = False
    """Whether the session ended on the day after it began."""
    row: int = 0
    """Longest row of clean repetitions ever, if the session made it longer, as a count; else 0."""
    best: BestScore | None = None
    """New best score of the hardest level that has one; None for none."""
    new_limit: NewLimit | None = None
    """New best of a personal limit, of the hardest level that has one; None for none."""
    cost: CostOverTime | None = None
    """What counting knocks costs; None where no such level was played in the session."""
    views: DayViews | None = None
    """What the pictures of the day are drawn from; None where nothing was read for them."""

    @property
    def next_visit(self) -> Line:
        """When the player is to practise next."""
        return next_visit_line(
            self.due_tomorrow,
            self.all_due,
            is_early=self.is_early,
            past_midnight=self.past_midnight,
        )

    @property
    def heading(self) -> str:
        """Heading of the screen: whether the session is done."""
        if self.is_early:
            return "Left for now"
        return "Done" if self.past_midnight else "Done for today"

    @property
    def news(self) -> list[str]:
        """Sentences about what went better in the session, the greatest first."""
        return news_words(self.passed, self.retained, self.beaten)[:MOST_NEWS]

    @property
    def sentences(self) -> list[str]:
        """Sentences below the heading, the one that matters most first."""
        if not self.parts:
            return [NOTHING]
        return [*(self.news or [SAVED if self.is_early else NOTHING_NEW]), *self.still_there]

    @property
    def still_there(self) -> list[str]:
        """Sentence on what was still there after a long rest, where anything was checked."""
        return [] if self.still is None else [still_words(*self.still)]

    @property
    def aims(self) -> str:
        """Sentence on what most repetitions of the session were for."""
        return aims_words([(part.counted, part.aim) for part in self.parts if part.aim])

    @property
    def rest(self) -> list[str]:
        """Last line of the day in several wordings, the fullest first: rest, and what comes."""
        is_done = not (self.is_early or self.past_midnight)
        visits = [Line("Tomorrow", self.tomorrow)] if is_done and self.tomorrow else []
        return [rest_line(visit, is_done=is_done) for visit in (*visits, self.next_visit)]

    @property
    def lines(self) -> list[Line]:
        """What stands beside the parts: steadiness, what counting costs, days, and what comes."""
        found = (
            steadiness_line(self.steadiness, self.blips),
            None if self.cost is None else cost_line(self.cost),
            days_line(self.streaks, is_longest=self.is_longest),
            self.next_visit,
        )
        return [line for line in found if line is not None]
