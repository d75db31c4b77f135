"""Words about the health of all pedals together, for the screen, the terminal and the setup."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drills.health.luck import Hardware, hardware_of, luck
from drills.health.pedal import PedalHealth
from drills.health.words import (
    faults_sentence,
    levels_sentence,
    limits_sentence,
    oddities,
    pedal_line,
)
from drills.level import Level
from drills.measures.device import SELDOM
from drills.trace import Pedal

TOO_LITTLE = "Too little was seen to say what they can show."
UNKNOWN = f"{TOO_LITTLE} Check them once more."


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

    @property
    def lines(self) -> tuple[str, ...]:
        """All of it, a line each."""
        return (*self.pedals, *self.odd, *filter(None, (self.limits, self.levels)))


def health_words(healths: Sequence[PedalHealth], levels: Sequence[Level]) -> HealthWords:
    """Words about the health of pedals, and which of the levels are partly luck with them."""
    lines = tuple(pedal_line(health) for health in healths)
    odd = tuple(sentence for health in healths for sentence in oddities(health))
    hardware = hardware_of(healths)
    if hardware is None:
        return HealthWords(lines, odd, UNKNOWN, "")
    faults = faults_sentence(healths)
    named = levels_sentence(levels, luck(levels, hardware), hardware, faults)
    return HealthWords(lines, odd, limits_sentence(hardware, faulty=bool(faults)), named)


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
