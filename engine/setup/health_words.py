"""Words about the health of all pedals together, for the screen, the terminal and the setup."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drills.health.luck import Hardware, hardware_of, luck
from drills.health.pedal import PedalHealth
from drills.health.words import (
    NOISE_TOLD,
    faults_sentence,
    levels_sentence,
    limits_sentence,
    number,
    oddities,
    pedal_line,
    rate_words,
)
from drills.level import Level
from drills.measures.device import SELDOM
from drills.trace import Pedal

TOO_LITTLE = "Too little was seen to say what they can show."
ONCE_MORE = "Check them once more."
UNKNOWN = f"{TOO_LITTLE} {ONCE_MORE}"
CAN_SHOW = "These pedals can show the skill."
COLUMNS = ("", "smallest step", "noise", "reports a second")
"""Headings of the table of pedals."""
NOTHING = "-"
"""Cell of the table for what was not seen."""


@dataclass(frozen=True)
class HealthWords:
    """Everything that is told of the health of pedals."""

    pedals: tuple[str, ...]
    """Line for each pedal."""
    odd: tuple[str, ...]
    """Sentences about what is wrong with single pedals."""
    limits: str
    """Sentence about what the pedals can and cannot show; empty where faults leave nothing else."""
    levels: str
    """Sentence about the levels that are partly luck, or about the faults where none is; empty
    where nothing is known."""
    lead: str
    """The one sentence that matters: what is in the way, or that nothing is."""
    rest: tuple[str, ...]
    """What else is to say of all pedals together, a sentence each."""
    rows: tuple[tuple[str, ...], ...]
    """Table of the pedals: a row of cells for each, as in COLUMNS."""

    @property
    def lines(self) -> tuple[str, ...]:
        """All of it, a line each."""
        return (*self.pedals, *self.odd, *filter(None, (self.limits, self.levels)))


def health_words(healths: Sequence[PedalHealth], levels: Sequence[Level]) -> HealthWords:
    """Words about the health of pedals, and which of the levels are partly luck with them."""
    lines = tuple(pedal_line(health) for health in healths)
    odd = tuple(sentence for health in healths for sentence in oddities(health))
    hardware = hardware_of(healths)
    rows = tuple(_cells(health) for health in healths)
    if hardware is None:
        return HealthWords(lines, odd, UNKNOWN, "", TOO_LITTLE, (ONCE_MORE,), rows)
    faults, lucky = faults_sentence(healths), luck(levels, hardware)
    named = levels_sentence(levels, lucky, hardware, faults)
    limits = limits_sentence(hardware, faulty=bool(faults))
    if not hardware.can_judge:
        lead, rest = limits, [named]
    elif faults:
        lead, rest = faults, [limits, named]
    elif lucky:
        lead, rest = limits, [named]
    else:
        lead, rest = CAN_SHOW, [limits]
    more = tuple(sentence for sentence in rest if sentence and sentence != lead)
    return HealthWords(lines, odd, limits, named, lead, more, rows)


def _cells(health: PedalHealth) -> tuple[str, ...]:
    """Row of the table of pedals: its name, step, noise and reports a second."""
    name = health.pedal.value
    if not health.seen or health.step is None:
        return name, "not moved yet", NOTHING, NOTHING
    noise = NOTHING
    if health.noise is not None:
        where = " at rest" if health.held is None else ""
        some = f"{number(health.noise)} points" if health.noise >= NOISE_TOLD else "none"
        noise = f"{some}{where}"
    return name, f"{number(health.step)} %", noise, rate_words(health)


def setup_line(healths: Sequence[PedalHealth]) -> str:
    """One line after setting up: what was seen of the first pedal, or why none can be judged.

    A coarse pedal may have changed too seldom to tell how often it reports; its steps are told.
    """
    seen = [health for health in healths if health.seen]
    intervals = [health.timing.interval for health in seen if health.timing is not None]
    steps = [health.step or 0.0 for health in seen if health.pedal is Pedal.BRAKE]
    hardware = Hardware(max(steps, default=0.0), 0.0, max(intervals, default=SELDOM))
    if not hardware.can_judge:
        return limits_sentence(hardware)
    return pedal_line(seen[0]) if seen else TOO_LITTLE
