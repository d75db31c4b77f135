"""Constants of the simulated foot, by its skill from beginner to expert.

What practice lowers falls by the same share for each step of skill, as the errors of one person
fall with practice: exponentially (Heathcote, Brown & Mewhort 2000, abstract). No source gives the
two ends: they are chosen so that a beginner's blip takes about 30 points off a firm brake and an
expert's 3, and that in three seconds of dark a beginner loses 5 % of the brake, give or take 10.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Habit:
    """Constants of a simulated foot: how it holds, blips, squeezes and eases off."""

    skill: float
    """Skill of the simulated foot, from 0 (beginner) to 1 (expert)."""
    wander: float
    """Standard deviation of the held brake's slow wander, as a share of the target."""
    wander_time: float
    """Time constant of the held brake's slow wander, in s."""
    tremor: float
    """Amplitude of the tremor in the held brake, as a share of the target."""
    creep: float
    """Speed at which the brake creeps in the dark, in 1/s, as a share of the target."""
    gain: float
    """Brake lost for throttle given, in the steady state (a ratio)."""
    gain_spread: float
    """Standard deviation of `gain` from blip to blip, as a share of it."""
    delay: float
    """Delay from the throttle to its pull on the brake, in s."""
    damping: float
    """Damping ratio of the brake's return after a blip has pulled it."""
    frequency: float
    """Natural frequency of the brake's return after a blip has pulled it, in rad/s."""
    reaction: float
    """Median of the reaction time from cue to throttle, in s."""
    reaction_spread: float
    """Standard deviation of the logarithm of the reaction time."""
    peak: float
    """Mean throttle peak of a blip, in %."""
    peak_spread: float
    """Standard deviation of the throttle peak of a blip, in %."""
    length: float
    """Median duration of the throttle pulse of a blip, in s."""
    length_spread: float
    """Standard deviation of the logarithm of a throttle pulse's duration."""
    squeeze: float
    """Time constant of the brake on its way to a level, in s; the leg is a damped mass."""
    miss: float
    """Standard deviation of a brake pressed from memory, as a share of the level meant."""
    shove: float
    """Standard deviation of how far a quick squeeze passes its level, as a share of the level."""
    timing: float
    """Standard deviation of a blip about the beat it is timed to, in s."""
    stretch: float
    """Standard deviation of the logarithm of the time that easing off the brake takes."""
    bend: float
    """Standard deviation of the logarithm of the power that bends an easing off (1: straight)."""
    order: float
    """Standard deviation of the clutch movements about the blip, in s."""

    @classmethod
    def of(cls, skill: float) -> Habit:
        """Constants of a simulated foot at a skill from 0 (beginner) to 1 (expert).

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
