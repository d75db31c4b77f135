"""Sessions of made-up scores, and whether they are called falling: played by rates.py."""

from __future__ import annotations

import numpy as np

from engine.practice.fatigue import FEWEST, Scored, fatigue_of

Chance = np.random.Generator

SCORE, SCORE_SD = 70.0, 12.0
"""Mean and standard deviation of scores, in points, of a player between clean and perfect."""
FALL, OVER = 2.0, 15
"""Fall that is to be found, in standard deviations, and the repetitions over which it comes."""


def scores(
    chance: Chance,
    count: int,
    *,
    fall: float = 0.0,
    zeros: float = 0.0,
    alike: float = 0.0,
    mean: float = SCORE,
) -> list[float]:
    """Scores of a session: `fall` in points a repetition, the share that is 0, their mean.

    Neighbours correlate by `alike`.
    """
    plain = noise(chance, count, alike) * SCORE_SD + mean - fall * np.arange(count)
    return as_scores(chance, plain, zeros)


def noise(chance: Chance, count: int, alike: float) -> np.ndarray:
    """Normal deviates whose neighbours correlate by `alike`."""
    drawn = chance.standard_normal(count)
    for place in range(1, count):
        drawn[place] = alike * drawn[place - 1] + np.sqrt(1 - alike**2) * drawn[place]
    return drawn


def as_scores(chance: Chance, plain: np.ndarray, zeros: float) -> list[float]:
    """Scores from 0 to 100, of which a share is 0: not done as asked."""
    capped = np.clip(plain, 0.0, 100.0)
    played: list[float] = np.where(chance.random(capped.size) < zeros, 0.0, capped).tolist()
    return played


def called_falling(session: list[Scored]) -> bool:
    """Whether a stop is suggested after any repetition."""
    return any(fatigue_of(session[:end]) for end in range(FEWEST, len(session) + 1))


def of_one(played: list[float]) -> bool:
    """Whether a session of one kind is called falling."""
    return called_falling([Scored("kind", one) for one in played])


def tired(
    chance: Chance,
    fall: float = 0.0,
    *,
    count: int,
    zeros: float = 0.0,
    alike: float = 0.0,
    mean: float = SCORE,
) -> bool:
    """A session of one kind whose scores fall, if they do, from the first repetition on."""
    return of_one(scores(chance, count, fall=fall, zeros=zeros, alike=alike, mean=mean))


def tires_at(
    chance: Chance,
    *,
    begin: int,
    count: int = 40,
    alike: float = 0.0,
    zeros: float = 0.0,
    mean: float = SCORE,
) -> bool:
    """A session of one kind that falls by FALL over OVER repetitions after the first `begin`."""
    share = np.clip((np.arange(count) - begin + 1) / OVER, 0.0, 1.0)
    plain = mean + SCORE_SD * (noise(chance, count, alike) - FALL * share)
    return of_one(as_scores(chance, plain, zeros))


def tired_of_mixed(chance: Chance, *, count: int, kinds: int, alike: float = 0.0) -> bool:
    """A session of several kinds in any order; each score may be a little like the one before."""
    order = chance.integers(kinds, size=count).tolist()
    played = zip(order, scores(chance, count, alike=alike), strict=True)
    return called_falling([Scored(str(kind), one) for kind, one in played])


def tired_of_harder(chance: Chance, *, count: int, harder: float) -> bool:
    """A session of one kind whose second half is harder by some points: nobody tires."""
    easy = scores(chance, count)
    later = [one - harder * (place >= count // 2) for place, one in enumerate(easy)]
    return of_one([max(0.0, one) for one in later])
