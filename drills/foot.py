"""A simulated right foot on the pedals, from beginner to expert, all from one seed.

It holds a brake target with slow wander that grows with the target (Jones, Hamilton & Wolpert
2002: the spread of a force grows with the force), an 8-12 Hz tremor (Novak & Newell 2017), and
creeps away from it in the dark. It answers a cue with a throttle pulse that pulls the brake along
through a delayed, underdamped second-order coupling: the dip and the rebound that practice
reduces. What it does in a repetition, slips included, is drawn as the repetition begins. It also
squeezes from memory, eases off, follows a brake line, keeps time, and has a left foot for the
clutch.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from drills.answer import SOONEST, Answer, BlipMotion, draw, lay_out, plain_answer
from drills.braking_zone import Line
from drills.foot_course import SHOVE, BrakeCourse, EvenRelease, FollowedLine
from drills.habit import Habit
from drills.left_foot import TRAVEL, LeftFoot
from drills.task import FALL_HOLD

DT = 0.001
"""Length of one step of the simulated foot, in s."""
ANSWERS = 2
"""Number of the random stream for the foot's answers, apart from that of the wander."""
MANNERS = 3
"""Number of the random stream for squeezes, lines, easing off, tempo and clutch: all but blips."""
DRIFT_OF_PITCH = 0.02
"""Standard deviation of the change of the tremor's frequency in one step, in Hz."""
PITCH = 10.0
"""Frequency that the simulated tremor varies about, in Hz: the middle of 8 to 12 Hz."""
UNDER = 0.11
"""Time from clutch down to the blip, and from the end of the blip to the clutch coming up, in s."""
_BLOCK = 4096
"""Number of random numbers that the simulated foot draws at once, for speed alone."""


class SimulatedFoot:
    """A simulated foot on its pedals, stepped 1 ms at a time; it reads as the pedals, in %."""

    def __init__(self, skill: float, seed: int) -> None:
        self._habit = Habit.of(skill)
        self._seed = seed
        self._answered = self._mannered = 0
        self._intended = self._habit
        rng = np.random.default_rng(seed)
        self._phase = rng.random() * math.tau
        self._noise = _noise(rng)
        self._kick = math.sqrt(2 * DT / self._habit.wander_time)
        self._steps = 0
        self._aim = 0.0
        self._aims: list[tuple[int, float]] = []
        self._course: BrakeCourse | None = None
        self._level = 0.0
        self._level_speed = 0.0
        self._wander = 0.0
        self._pitch = PITCH
        self._creep = 0.0
        self._crept = 0.0
        self._pull = 0.0
        self._pull_speed = 0.0
        self._answer: Answer | None = None
        self._answering = False
        self._guessed: int | None = None
        self._lets_go_at: int | None = None
        self._moves: list[BlipMotion] = []
        self._rest = 0.0
        self._left = LeftFoot(DT)
        self.clutch = 0.0
        """Position of the clutch under the simulated left foot, in %."""

    @property
    def steps(self) -> int:
        """Number of steps that the simulated foot has made."""
        return self._steps

    @property
    def blips(self) -> Sequence[BlipMotion]:
        """Blips that are planned or under way."""
        return self._moves

    def press(self, level: float) -> None:
        """Bring the brake to `level` (%) with the screen lit, and hold it there; 0 lets go."""
        self.see()
        self._aim = level

    def see(self) -> None:
        """End the dark for the simulated foot: it corrects its drift, with nothing more planned."""
        self._answer = self._guessed = self._lets_go_at = None
        self._answering = False
        self._creep = self._crept = self._rest = 0.0
        self._moves = [move for move in self._moves if move.onset <= self._steps]
        self._aims, self._course = [], None
        self._left.drop(self._steps)

    def darken(self, *, cued: bool) -> None:
        """Darken the screen: the brake begins to creep; `cued` if a cue is to be answered."""
        answer = self._answer = self._drawn()
        self._creep = answer.creep
        if answer.lets_go is not None:
            self._lets_go_at = self._after(answer.lets_go)
        if cued and answer.guess is not None:
            self._guessed = self._after(answer.guess)
            self._plan(answer, self._guessed)

    def intend_blips(self, size: float) -> None:
        """Intend the next blips to reach `size` (%) at their peak; 0: as deep as is its habit."""
        self._intended = replace(self._habit, peak=size) if size else self._habit

    def blip(self) -> None:
        """Answer a cue: blip the throttle after the reaction time, or slip."""
        answer = self._taken()
        self._answer_at(answer, self._after(answer.reaction))

    def keep_time(self, tempo: float, *, with_clutch: bool = False) -> None:
        """Blip the throttle on the next beat, which is `tempo` s from now.

        `with_clutch`: the left foot holds the clutch down while it does.
        """
        (late,) = self._manner(1)
        answer = self._taken()
        onset = self._after(max(tempo + late * self._habit.timing, 0.05))
        if with_clutch:
            before, after = self._manner(2)
            down = onset - round((TRAVEL + UNDER + self._habit.order * before) / DT)
            self._stroke(max(down, self._steps), answer, onset, after)
        self._answer_at(answer, onset)

    def squeeze(self, level: float) -> None:
        """Answer a cue: after the reaction time, press the brake to `level` (%) from memory."""
        miss, shove = self._manner(2)
        answer = self._taken()
        if not answer.pulses:
            return
        weight = level * (1 + self._habit.miss * miss)
        begins = self._after(answer.reaction)
        past = weight + level * self._habit.shove * abs(shove)
        self._aims = [(begins, past), (begins + round(SHOVE / DT), weight)]

    def ease(self, seconds: float) -> None:
        """Answer a falling tone: ease the brake off to nothing over `seconds`.

        It begins after the reaction time, but not before the tone falls.
        """
        stretch, bend = self._manner(2)
        answer = self._answer or self._drawn()
        takes = seconds * math.exp(self._habit.stretch * stretch)
        power = math.exp(self._habit.bend * bend)
        begins = self._after(max(answer.reaction, FALL_HOLD))
        self._course = EvenRelease(begins, takes / DT, power, self._aim)

    def follow(self, line: Line, beat: float) -> None:
        """Squeeze to the peak of a brake line on the next beat, `beat` s from now, and follow it.

        The drift in the dark counts from here on: until now there was no weight to lose.
        """
        late, *errors = self._manner(5)
        begins = self._after(max(beat + late * self._habit.timing, 0.0))
        self._crept = 0.0
        self._course = FollowedLine(line, begins, self._habit, errors, DT)

    def come_off(self) -> None:
        """Answer the knock at the end of a brake line: let go after the reaction time, if at all.

        A foot that kept to its line is off by then.
        """
        (slow,) = self._manner(1)
        habit = self._habit
        reaction = max(habit.reaction * math.exp(habit.reaction_spread * slow), SOONEST)
        self._lets_go_at = self._after(reaction)

    def shift(self) -> None:
        """Answer a cue with a downshift: clutch down, blip, clutch up."""
        before, after = self._manner(2)
        habit, answer = self._habit, self._taken()
        down = self._after(answer.reaction)
        onset = down + round((TRAVEL + UNDER + habit.order * before) / DT)
        onset = max(onset, self._steps + 1)
        self._stroke(down, answer, onset, after)
        self._answer_at(answer, onset)

    def step(self) -> tuple[float, float]:
        """Move the foot on by one millisecond; return brake and throttle, each from 0 to 100 %."""
        now = self._steps
        if now == self._lets_go_at:
            self._aim, self._course, self._aims = 0.0, None, []
        while self._aims and now >= self._aims[0][0]:
            self._aim = self._aims.pop(0)[1]
        if self._course is not None:
            self._aim = self._course.at(now)
        drive, throttle = self._rest, 0.0
        for move in self._moves:
            since = now - move.begins
            if since < move.size:
                drive += move.drives[since]
                throttle = max(throttle, move.throttles[since])
        if self._moves and self._moves[0].is_over(now):
            self._rest += self._moves.pop(0).stays
        self._couple(drive)
        brake = self._hold() + self._pull
        self.clutch = self._left.at(now)
        self._steps += 1
        return min(max(brake, 0.0), 100.0), throttle

    def _stroke(self, down: int, answer: Answer, onset: int, after: float) -> None:
        """Plan the clutch of a blip; `after` is a standard normal number, by which it comes up."""
        pulses = answer.pulses
        end = onset + round((max(pulse.end for pulse in pulses) if pulses else 0.0) / DT)
        self._left.plan(down, end + round((UNDER + self._habit.order * after) / DT))

    def _taken(self) -> Answer:
        """Take the answer drawn for this repetition; from its second blip on, one with no slip."""
        answer = self._answer or self._drawn(plain=self._answering)
        self._answer, self._answering = None, True
        return answer

    def _answer_at(self, answer: Answer, onset: int) -> None:
        guessed, self._guessed = self._guessed, None
        if guessed is not None and onset >= guessed:
            return
        if guessed is not None:
            self._moves = []
        self._plan(answer, onset)

    def _drawn(self, *, plain: bool = False) -> Answer:
        self._answered += 1
        rng = np.random.default_rng((self._seed, ANSWERS, self._answered))
        return plain_answer(self._intended, rng) if plain else draw(self._intended, rng)

    def _manner(self, count: int) -> list[float]:
        """`count` standard normal numbers for one squeeze, line, easing off, tempo or clutch."""
        self._mannered += 1
        rng = np.random.default_rng((self._seed, MANNERS, self._mannered))
        found: list[float] = rng.standard_normal(count).tolist()
        return found

    def _after(self, seconds: float) -> int:
        return self._steps + round(seconds / DT)

    def _plan(self, answer: Answer, onset: int) -> None:
        """Add the blip of an answer, its onset at a step, to the motions under way."""
        if not answer.pulses:
            return
        self._moves.append(lay_out(answer, self._habit.delay, self._steps, onset, DT))
        if answer.lets_go_after is not None:
            self._lets_go_at = onset + round(answer.lets_go_after / DT)

    def _couple(self, drive: float) -> None:
        """Move the brake one step as what the foot does pulls it: a damped mass on a spring."""
        habit = self._habit
        stiffness = habit.frequency**2
        damped = 2 * habit.damping * habit.frequency * self._pull_speed
        self._pull_speed += (stiffness * (drive - self._pull) - damped) * DT
        self._pull += self._pull_speed * DT

    def _hold(self) -> float:
        habit, noise = self._habit, self._noise
        self._crept += self._creep * DT
        short = self._aim * (1 + self._crept) - self._level
        self._level_speed += (short / habit.squeeze - 2 * self._level_speed) * DT / habit.squeeze
        self._level += self._level_speed * DT
        kick = next(noise) * self._kick
        self._wander += kick - self._wander * DT / habit.wander_time
        self._pitch += next(noise) * DRIFT_OF_PITCH + (PITCH - self._pitch) * DT
        self._phase += math.tau * self._pitch * DT
        share = habit.wander * self._wander + habit.tremor * math.sin(self._phase)
        return self._level * (1 + share)


def _noise(rng: np.random.Generator) -> Iterator[float]:
    """Endless standard normal random numbers, for the wander and the tremor of the foot."""
    while True:
        yield from rng.standard_normal(_BLOCK).tolist()
