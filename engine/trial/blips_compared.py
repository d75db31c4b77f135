"""Blips of the two arms of a trial compared, since a larger blip makes a deeper dip.

The dips are compared twice by the same test: as they are, and scaled to blips of one size. Scaling
takes a dip as proportional to its blip. Where a dip grows less than that, the dips as they are
favour the arm with the smaller blips and the scaled ones the other, and the two disagree. So a
difference that both show is none of the blips. `tests/bench/trial.py` measures how often two equal
arms with unequal blips are called different.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from engine.practice.blip_size import scaled
from engine.trial.difference import Difference, Pair, compare, compare_measured
from engine.trial.trial import TrialRepetition

NOTICEABLE_BLIP = 5.0
"""Smallest difference of typical blips that is named, in points of throttle: it moves a dip of 12
at blips of 60 % by 1 point, half of what a player would notice."""


@dataclass(frozen=True)
class BlipsCompared:
    """Sizes of the blips of A and B, and their dips as they would be at blips of one size."""

    scaled: Difference
    """Dips scaled to blips of one size, in points; without any value where a dip has no blip."""
    peaks: Difference
    """Throttle at the peak of the blips, in %."""

    @property
    def differ(self) -> bool:
        """Whether the blips of A and B differ by more than chance explains, and noticeably."""
        value = self.peaks.value
        sure = self.peaks.smaller is not None
        return sure and value is not None and abs(value) >= NOTICEABLE_BLIP

    def agree(self, dip: Difference) -> bool:
        """Whether the scaled dips favour the same arm as the dips as they are, or none as well."""
        return self.scaled.p is not None and self.scaled.smaller is dip.smaller


def compare_blips(pairs: Sequence[Pair]) -> BlipsCompared:
    """Compare the blips of A and B over pairs of blocks; of a run, its blip with the deepest dip.

    If a repetition has a dip and no blip, as none of today's has, the dips cannot be scaled, and
    none is: those left out might be of one arm.
    """
    of_all = [rep for pair in pairs for block in pair for rep in block]
    unknown = any(rep.dip is not None and not rep.peak for rep in of_all)
    return BlipsCompared(
        compare("dip", () if unknown else pairs, scaled_dip),
        compare_measured("peak", pairs, lambda rep: rep.peak),
    )


def scaled_dip(repetition: TrialRepetition) -> float | None:
    """Dip of a repetition scaled to a blip of one size, in points; None if it was not measured."""
    dip, peak = repetition.dip, repetition.peak
    return scaled(dip, peak) if dip is not None and peak else None
