"""`RevealFacts`: what a reveal tells of one repetition."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drills.deviation import Deviation
from drills.level import Level
from drills.measures.jumps import Jump
from drills.measures.sampling import Sampling
from drills.score import Verdict
from engine.drill.replays import Replays
from engine.kit.base import Place


@dataclass(frozen=True)
class RevealFacts:
    """One repetition as its reveal tells it."""

    level: Level
    """Level that was played."""
    verdict: Verdict
    """Verdict on the repetition."""
    picture: Deviation | None
    """Picture of its brake; None if there is nothing to draw."""
    earlier: Sequence[Deviation]
    """Pictures of some repetitions before it, oldest first."""
    place: Place
    """Its position in its set or session."""
    sampling: Sampling | None = None
    """How its pedals were read; None where that is not known."""
    guess: float | None = None
    """What the player guessed before the reveal, in points; None without a guess."""
    jumps: Sequence[Jump] = ()
    """Jumps of the pedals that were left out."""
    of_limit: str = ""
    """Quiet line on how much of its limits it took, where that was asked; empty for none."""
    is_luck: bool = False
    """Whether the level is partly luck with the pedals."""
    repeats: int = 0
    """Number of remarks on the same topic that were shown just before."""
    replays: Replays | None = None
    """Replays that are offered; None where there are none."""
