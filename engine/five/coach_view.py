"""`CoachView`: what the coach's page says and draws, read from the newest blips of a history."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from drills.fault import Fault
from drills.level import Level
from engine.five import coach_words
from engine.five.coach_curves import CoachCurves, coach_curves
from engine.five.fault_words import fault_cue, fault_sentence
from engine.five.saved_focus import newest_step
from engine.practice.answering import answering
from engine.practice.diagnosis import LEAST, FaultShare, diagnose
from engine.practice.focus import Focus, FocusStep
from engine.practice.passes import is_open
from engine.store import History, ledger
from engine.store.faults import newest_faults


@dataclass(frozen=True)
class CoachView:
    """Everything on the coach's page."""

    blips: int
    """Newest blips that were looked at, as a count."""
    focus: Focus | None = None
    """The fault that is worked on; None where none is."""
    curves: CoachCurves | None = None
    """Curves of the picture; None where no trace can be drawn."""
    titles: tuple[str, ...] = ()
    """Titles of the levels that answer the fault, in the order in which to choose one."""
    settling: FaultShare | None = None
    """Fault that stands out and is not worked on, as it halved last; None for none."""
    halved_on: date | None = None
    """Local day on which that fault halved; None where there is none."""

    @property
    def is_early(self) -> bool:
        """Whether there are too few blips to tell anything."""
        return self.focus is None and self.blips < LEAST

    @property
    def fault(self) -> Fault | None:
        """The fault that is told; None for none."""
        share = self.share
        return None if share is None else share.fault

    @property
    def share(self) -> FaultShare | None:
        """How many of the newest blips have the fault that is told; None for none."""
        return self.settling if self.focus is None else self.focus.now

    @property
    def lead(self) -> str:
        """The one sentence."""
        if self.share is not None:
            return fault_sentence(self.share)
        if self.is_early:
            return coach_words.few_words(self.blips)
        return coach_words.nothing_words(self.blips)

    @property
    def line(self) -> str:
        """The cue, that a fault has halved lately, or what would stand out."""
        if self.focus is not None:
            return fault_cue(self.focus.fault)
        if self.halved_on is not None:
            return coach_words.settling_words(self.halved_on)
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
    return coach_view(history, newest_step(history), newest_faults(history), levels, done)


def coach_view(
    history: History,
    step: FocusStep,
    found: Sequence[tuple[int, Fault | None]],
    levels: Sequence[Level],
    done: frozenset[str],
) -> CoachView:
    """What the coach's page says of the newest blips `found`, oldest first. Raises StoreError.

    `step` is the newest of the fault worked on, `found` are the numbers of repetitions, each with
    its fault; `done` are the ids of levels that are passed.
    """
    focus, halved = step.now, step.halved
    share = diagnose([fault for _, fault in found]) if focus is None else focus.now
    if focus is None and (share is None or halved is None or share.fault is not halved.fault):
        share = halved = None
    if share is None and len(found) < LEAST:
        return CoachView(len(found))
    curves = coach_curves(history, found, None if share is None else share.fault)
    if focus is not None:
        return CoachView(len(found), focus, curves, _titles(focus.fault, levels, done))
    if halved is None:
        return CoachView(len(found), curves=curves)
    return CoachView(len(found), curves=curves, settling=share, halved_on=halved.on)


def _titles(fault: Fault, levels: Sequence[Level], done: frozenset[str]) -> tuple[str, ...]:
    """Titles of the levels that answer a fault: of passed ones the hardest first, then open ones.

    `levels` are in the order of the ladder.
    """
    answers = answering(fault, levels)
    passed = [level for level in reversed(answers) if level.id in done]
    others = [level for level in answers if level.id not in done and is_open(level, done)]
    return tuple(level.title for level in (*passed, *others))
