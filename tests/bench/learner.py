"""A simulated learner: a statistical model of who practises, where no foot is stepped.

An ability, in the skill of the simulated foot, is a sum of a general part, one of the level's
stage and one of the level alone. A repetition is clean by a logistic of ability less difficulty,
fitted to the shares that the simulated foot has (tests/bench/levels.py).

What the model assumes, each a number of `Learner`:
- practice brings each part nearer a personal ceiling by a share of what is left, so that
  learning is exponential (Heathcote, Brown & Mewhort 2000, abstract), most where about half is
  clean (from memory: Guadagnoli & Lee 2004, challenge point);
- a part of it is of the day alone: performance is not learning (from memory: Soderstrom & Bjork
  2015);
- what was learned fades from day to day, more slowly the more often it was practised again after
  a gap (from memory: Cepeda, Pashler, Vul, Wixted & Rohrer 2006);
- after another level, more of a repetition stays and less shows at once: the benefit of mixing
  (Shea & Morgan 1979, large in the laboratory; Czyż, Wójcik, Solarská & Kiper 2024, abstract,
  small outside it). It can be switched off, as it favours whoever mixes.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from math import exp, log
from statistics import NormalDist

import numpy as np

from drills.level import Level

SKILLS = (0.0, 0.25, 0.5, 0.75, 1.0)
SHARES = """
still-1-light .55 .81 .99 1 1; still-2-firm .25 .70 .90 .99 1; still-2a-squeeze .26 .53 .82 1 1
still-2b-anywhere .31 .56 .85 .99 1; still-2c-squeeze-any .16 .44 .68 .86 1
still-3-dark .15 .34 .68 .88 1; still-4-long .21 .34 .60 .84 .96
blip-0-roll .51 .93 .96 .99 1; blip-1-first .29 .86 .96 .99 .99; blip-2-closer .14 .47 .95 .99 .99
blip-2b-moving .06 .40 .94 .97 .99; blip-3-good .04 .26 .81 .96 .97; quiet-guess .03 .17 .69 .96 .97
blip-4-ripple .01 .06 .41 .96 .97; quiet-outside .01 .04 .30 .96 .97; quiet-five .01 .04 .21 .84 .97
blip-5-still 0 0 .07 .53 .97; run-1-two .06 .70 .95 .99 .97; run-2-three 0 .09 .84 .91 .97
run-3-even 0 .03 .41 .96 .97; run-4-quick 0 0 .14 .84 .96; run-5-four 0 0 0 .71 .96
run-6-any 0 0 0 .26 .96; ease-1-slow .56 .91 .99 1 1; ease-2-quick .33 .62 .89 .97 1
ease-3-one .04 .26 .82 .96 .99; ease-4-guess .01 .09 .42 .96 .97; ease-5-two 0 0 .05 .84 .96
ease-6-still 0 0 0 .28 .96; clutch-1-order .15 .72 .96 .99 .99; clutch-2-quiet .04 .25 .82 .96 .97
clutch-3-quick 0 .10 .31 .95 .97; mix-1-any .11 .44 .71 .94 .99; mix-2-five .03 .12 .50 .95 .99
mix-3-nothing .05 .12 .26 .57 .99; zone-1-gatehouse .05 .38 .88 .97 .97
zone-2-orchard 0 .03 .70 .95 .97; zone-3-quarry 0 0 .40 .88 .95; zone-4-chapel 0 0 .20 .78 .93
zone-5-ridge 0 0 0 .75 .95; zone-6-summit 0 0 0 .33 .95; count-1-easy .02 .23 .87 .93 .97
count-2-quick .03 .10 .67 .95 .97; count-3-still 0 .08 .37 .95 .97
"""
"""1, share clean at each of the skills, by tests/bench/levels.py."""
BAND_CLEAN = 0.75
"""1, share clean of the steadiness blips, whose tolerance follows the player."""
LAPSE = 0.02
"""1, of all repetitions miss for no reason."""
GENERAL, STAGE, OWN = "general", 0.45, 0.25
"""Name of the part that every level shares; weight of the part of a stage, and of a level."""
FEW = 0.15
"""1, of what is learned where the level is about right, is learned where it is far from it."""
MIXED = ("quiet blip", "runs", "easing off")
"""Stages whose parts a level of the kind mixed asks together."""
BEST = 0.45
"""1, of its limits, that three of four repetitions of the ablest stay within."""
STEEP = 3.6
"""1, by which the logarithm of a chance falls in one of a load: 0.5 is a usual spread of loads."""
QUANTILES = [NormalDist().inv_cdf((k + 0.5) / 9) for k in range(9)]
"""Days from bad to good, over which what is expected is a mean."""


@cache
def difficulties() -> Mapping[str, tuple[float, float]]:
    """Skill where half is clean, and steepness, by level: least squares over the shares."""
    middles, steeps = np.linspace(-0.2, 1.2, 141), np.linspace(3, 30, 55)
    middle, steep = np.meshgrid(middles, steeps)
    found = {}
    for row in SHARES.replace(";", "\n").split("\n"):
        if row:
            name, *shares = row.split()
            error = sum(
                (float(share) - (1 - LAPSE) / (1 + np.exp(-steep * (skill - middle)))) ** 2
                for share, skill in zip(shares, SKILLS, strict=True)
            )
            best = np.argmin(error)
            found[name] = float(middle.flat[best]), float(steep.flat[best])
    return found


@dataclass
class Part:
    """One part of an ability."""

    start: float
    """skill, what never fades."""
    learned: float = 0.0
    """skill, what practice added and has not faded."""
    warm: float = 0.0
    """skill, of the day alone."""
    lasts: float = 0.0
    """days, in which what was learned would fade to a third."""
    practised: float = 0.0
    """days, when it was last."""
    faded: float = 0.0
    """days, up to when it has faded."""


@dataclass
class Learner:
    """Somebody who practises."""

    start: float
    """skill, at the beginning."""
    ceiling: float
    """skill, that practice leads to."""
    rate: float
    """1, of what is left to the ceiling, that the part of a stage gains in a repetition."""
    lasts: float
    """days, in which what was learned on one day alone fades to a third."""
    spacing: float
    """1, growth of that by the share that had faded when it was practised again."""
    uneven: float
    """skill, spread of good and bad days."""
    slow: float
    """1, time a repetition takes, against a usual player's."""
    mixing: float
    """1, more of a repetition that stays, where it follows one of another level."""
    seed: int
    """Of the parts of the ability at the beginning."""
    day: float = 0.0
    """days, now."""
    form: float = 0.0
    """skill, how much better or worse this day is."""
    last: str = ""
    """Id of the level practised last."""
    parts: dict[str, Part] = field(default_factory=dict)
    """Those met so far, by stage or by id of level."""

    @classmethod
    def drawn(cls, seed: int, mixing: float) -> Learner:
        """One of many kinds."""
        rng = np.random.default_rng(seed)
        return cls(
            start=rng.uniform(0, 0.5),
            ceiling=float(np.clip(rng.normal(0.95, 0.12), 0.6, 1.2)),
            rate=0.009 * float(np.exp(rng.normal(0, 0.5))),
            lasts=8 * float(np.exp(rng.normal(0, 0.6))),
            spacing=rng.uniform(0.3, 1.5),
            uneven=rng.uniform(0.02, 0.1),
            slow=float(np.exp(rng.normal(-0.1, 0.15))),
            mixing=mixing,
            seed=seed,
        )

    def wakes(self, day: float, form: float) -> None:
        """A day begins: what was of the last one alone is gone."""
        self.day, self.form, self.last = day, form * self.uneven, ""
        for part in self.parts.values():
            part.learned *= exp(-(day - part.faded) / part.lasts)
            part.warm, part.faded = 0.0, day

    def chance(self, level: Level) -> float:
        """1, of being clean now."""
        ability = sum(
            weight * (part.start + part.learned + part.warm)
            for part, weight, _ in self._parts(level)
        )
        return self._chance(level, ability + self.form)

    def cold(self, level: Level) -> float:
        """1, of being clean on a day like others, before anything else was done."""
        ability = sum(
            weight * (part.start + part.learned) for part, weight, _ in self._parts(level)
        )
        chances = [self._chance(level, ability + self.uneven * one) for one in QUANTILES]
        return sum(chances) / len(chances)

    def load(self, level: Level, drawn: float) -> float:
        """1, largest of a repetition's measures over their limits: at most 1 where it is clean.

        `drawn` is uniform in 0 to 1; the repetition is clean where it is at most the chance. Loads
        are log-logistic, with less spread the nearer their upper quartile is to the best.
        """
        if drawn >= 1 - LAPSE:
            return 1 + 3 * (drawn - 1 + LAPSE) / LAPSE
        in_hand = _logit(self.chance(level) / (1 - LAPSE))
        beyond = (in_hand - _logit(0.75)) / STEEP
        reach = -log(BEST)
        spread = reach * (1 - exp(-beyond / reach)) / beyond if beyond > 1e-6 else 1.0
        return min(exp(spread * (_logit(drawn / (1 - LAPSE)) - in_hand) / STEEP), 4.0)

    def practises(self, level: Level) -> None:
        """One repetition leaves something."""
        chance = self.chance(level)
        challenge = FEW + (1 - FEW) * 4 * chance * (1 - chance)
        mixed = self.mixing if self.last not in ("", level.id) else 0.0
        for part, _, speed in self._parts(level):
            left = self.ceiling - part.start - part.learned
            if left > 0:
                gain = self.rate * speed * challenge * left
                part.learned += gain * (1 + mixed)
                part.warm += max(0.0, gain * (1 - mixed))
            gap = self.day - part.practised
            part.lasts += self.spacing * part.lasts * (1 - exp(-gap / part.lasts))
            part.practised = self.day
        self.last = level.id

    def _chance(self, level: Level, ability: float) -> float:
        if level.id not in difficulties():
            return BAND_CLEAN
        middle, steep = difficulties()[level.id]
        return (1 - LAPSE) / (1 + exp(-steep * (ability - middle)))

    def _parts(self, level: Level) -> Sequence[tuple[Part, float, float]]:
        """What a level asks, each with its weight and how fast it is learned."""
        stages = MIXED if level.kind.name == "mixed" else (level.stage,)
        share = 1 / len(stages)
        return (
            (self._part(GENERAL), 1 - STAGE - OWN, 0.4),
            *((self._part(one), STAGE * share, share) for one in stages),
            (self._part(level.id), OWN, 4.0),
        )

    def _part(self, name: str) -> Part:
        if name not in self.parts:
            rng = np.random.default_rng((self.seed, *name.encode()))
            start = self.start + float(rng.normal(0, 0.08))
            self.parts[name] = Part(start, lasts=self.lasts, practised=self.day, faded=self.day)
        return self.parts[name]


def _logit(share: float) -> float:
    """Logarithm of the odds of a share, for shares within a billionth of 0 and 1."""
    inside = min(max(share, 1e-9), 1 - 1e-9)
    return log(inside / (1 - inside))
