"""The constants of the simulated foot, by its skill from beginner to expert.

What practice lowers falls by the same share for each step of skill, as the errors of one person
fall with practice: exponentially (Heathcote, Brown & Mewhort 2000, abstract). No source gives the
two ends: they are chosen so that a beginner's blip takes about 30 points off a firm brake and an
expert's 3, and that in three seconds of dark a beginner loses 5 % of the brake, give or take 10.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Habit:
    """The constants of a simulated foot."""

    skill: float
    """1, from 0 (beginner) to 1 (expert)."""
    wander: float
    """1, standard deviation of the slow wander as a share of the target."""
    wander_time: float
    """s, time constant of the wander."""
    tremor: float
    """1, amplitude of the tremor as a share of the target."""
    creep: float
    """1/s, speed of the creep in the dark, as a share of the target."""
    gain: float
    """1, brake lost for throttle given, in the steady state."""
    gain_spread: float
    """1, standard deviation of the gain from blip to blip, as a share of it."""
    delay: float
    """s, from throttle to brake."""
    damping: float
    """1, damping ratio of the return."""
    frequency: float
    """rad/s, natural frequency of the return."""
    reaction: float
    """s, middle of the reaction time."""
    reaction_spread: float
    """1, standard deviation of the logarithm of the reaction time."""
    peak: float
    """%, middle of the throttle peak."""
    peak_spread: float
    """%, standard deviation of the throttle peak."""
    length: float
    """s, length of the throttle pulse."""
    length_spread: float
    """1, standard deviation of the logarithm of that length."""
    squeeze: float
    """s, time constant of the brake on its way to a level, the leg being a damped mass."""
    miss: float
    """1, standard deviation of a weight pressed from memory, as a share of that weight."""
    shove: float
    """1, standard deviation of how far a quick squeeze goes past that weight, as a share of it."""
    timing: float
    """s, standard deviation of a blip about its beat."""
    stretch: float
    """1, standard deviation of the logarithm of the time an easing off takes."""
    bend: float
    """1, standard deviation of the logarithm of the power by which it is not straight."""
    order: float
    """s, standard deviation of the clutch about the blip."""

    @classmethod
    def of(cls, skill: float) -> Habit:
        """The constants at a skill from 0 (beginner) to 1 (expert).

        Raises ValueError outside that range.
        """
        if not 0 <= skill <= 1:
            raise ValueError(f"skill: expected 0 to 1, found {skill:g}")

        def between(beginner: float, expert: float) -> float:
            return float(beginner * (expert / beginner) ** skill)

        return cls(
            skill=skill,
            wander=between(0.045, 0.010),
            wander_time=1.5,
            tremor=between(0.010, 0.003),
            creep=between(0.030, 0.004),
            gain=between(0.45, 0.045),
            gain_spread=between(0.35, 0.20),
            delay=between(0.030, 0.015),
            damping=between(0.30, 0.65),
            frequency=between(16.0, 26.0),
            reaction=between(0.34, 0.24),
            reaction_spread=between(0.22, 0.10),
            peak=between(62.0, 70.0),
            peak_spread=between(16.0, 5.0),
            length=between(0.34, 0.22),
            length_spread=0.12,
            squeeze=0.08,
            miss=between(0.16, 0.022),
            shove=between(0.50, 0.05),
            timing=between(0.120, 0.016),
            stretch=between(0.30, 0.03),
            bend=between(0.55, 0.05),
            order=between(0.110, 0.018),
        )
