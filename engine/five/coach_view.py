"""`CoachView`: what the coach's page says and draws, read from the newest blips of a history."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drills.fault import Fault
from drills.level import Level
from engine.five import coach_words
from engine.five.coach_curves import CoachCurves, coach_curves
from engine.five.fault_words import fault_cue, fault_sentence
from engine.five.saved_focus import focus_now
from engine.practice.answering import answering
from engine.practice.diagnosis import LEAST
from engine.practice.focus import Focus
from engine.practice.passes import is_open
from engine.store import History, ledger
from engine.store.faults import newest_faults


@dataclass(frozen=True)
class CoachView:
    """Everything on the coach's page."""

    blips: int
    """Newest blips that were looked at, as a count."""
    focus: Focus | None = None
    """The fault that is worked on; None where none stands out."""
    curves: CoachCurves | None = None
    """Curves of the picture; None where no trace can be drawn."""
    titles: tuple[str, ...] = ()
    """Titles of the levels that answer the fault, in the order in which to choose one."""

    @property
    def is_early(self) -> bool:
        """Whether there are too few blips to tell anything."""
        return self.focus is None and self.blips < LEAST

    @property
    def fault(self) -> Fault | None:
        """The fault that is told; None for none."""
        return None if self.focus is None else self.focus.fault

    @property
    def lead(self) -> str:
        """The one sentence."""
        if self.focus is not None:
            return fault_sentence(self.focus.now)
        if self.is_early:
            return coach_words.few_words(self.blips)
        return coach_words.nothing_words(self.blips)

    @property
    def line(self) -> str:
        """The cue, or what would stand out."""
        if self.focus is not None:
            return fault_cue(self.focus.fault)
        return "" if self.is_early else coach_words.would_words(self.blips)

    @property
    def more(self) -> tuple[str, ...]:
        """What else there is to say: how often it came at first."""
        focus = self.focus
        if focus is None or focus.was == focus.now:
            return ()
        return (coach_words.was_words(focus.was),)

    @property
    def legend(self) -> str:
        """What the curves are; empty without curves."""
        curves = self.curves
        if curves is None:
            return ""
        return coach_words.curves_words(self.fault, curves.count, len(curves.without))


def coach_now(history: History, levels: Sequence[Level]) -> CoachView:
    """What the coach's page says now, of the rig in use. Raises StoreError."""
    done = ledger.passed(history) | ledger.placed(history)
    return coach_view(history, focus_now(history), newest_faults(history), levels, done)


def coach_view(
    history: History,
    focus: Focus | None,
    found: Sequence[tuple[int, Fault | None]],
    levels: Sequence[Level],
    done: frozenset[str],
) -> CoachView:
    """What the coach's page says of the newest blips `found`, oldest first. Raises StoreError.

    `found` are the numbers of repetitions, each with its fault; `done` are the ids of levels that
    are passed.
    """
    fault = None if focus is None else focus.fault
    if fault is None and len(found) < LEAST:
        return CoachView(len(found))
    curves = coach_curves(history, found, fault)
    titles = () if fault is None else _titles(fault, levels, done)
    return CoachView(len(found), focus, curves, titles)


def _titles(fault: Fault, levels: Sequence[Level], done: frozenset[str]) -> tuple[str, ...]:
    """Titles of the levels that answer a fault: of passed ones the hardest first, then open ones.

    `levels` are in the order of the ladder.
    """
    answers = answering(fault, levels)
    passed = [level for level in reversed(answers) if level.id in done]
    others = [level for level in answers if level.id not in done and is_open(level, done)]
    return tuple(level.title for level in (*passed, *others))
