"""Which axis a pedal is: the first that is pressed far, or a little and kept there.

Movement means more than the noise that an axis had with the feet off. An axis that had none yet,
because it kept moving or was plugged in since, joins in once it has been quiet.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping

from drills.calibration import SPAN_LEAST, Range
from drills.trace import nanoseconds
from engine.pedals.at_rest import AtRest
from engine.pedals.identity import Axis
from engine.pedals.travel import FOUND, NEAR, Still, Travel
from engine.pedals.trouble import Trouble

NOISES = 4.0
"""1, as many times its noise (from least to greatest) a movement is no chance."""
MOVED = 0.03
"""raw, least movement that is spoken of: more than the 0.0125 SDL may hold back and jump by."""
SIDE = 0.15
"""raw, movement to the other side of where an axis was that shows: 27 degrees of a big wheel."""
SOFT_FOR = nanoseconds(1.0)
"""ns that a pedal which moves little must be kept down to be found: nobody does so by chance."""
MIDDLE = 0.3
"""raw, within so much of 0 an axis is about its middle, where a wheel rests and few pedals do."""
PATIENT = nanoseconds(4.0)
"""ns after which somebody who waits is told why: they are to know within 5 s."""
INSISTED = nanoseconds(3.0)
"""ns that a pedal which was not asked for must be kept down to be taken: time to read so."""
PRESSED = 0.75
"""1, share of the farthest place beyond which an axis counts as kept down."""
LASTING = frozenset({Trouble.SHARED, Trouble.TAKEN, Trouble.REFUSED})
"""What stays said until something else moves."""


def shows(noise: float) -> float:
    """raw, movement of an axis of that noise that is worth speaking of."""
    return max(MOVED, NOISES * noise)


class Seeker:
    """Looks for one pedal among all axes, until one of them is found or one is pressed in vain."""

    def __init__(
        self, noise: Mapping[Axis, float], taken: Mapping[Axis, Range], refused: Collection[Axis]
    ) -> None:
        """`taken` are bound to other pedals already, `refused` are not the one to look for."""
        self.noise = dict(noise)
        """raw, of the axes that are looked at."""
        self.found: Axis | None = None
        """The axis that was pressed far enough, or kept down; perhaps a taken one."""
        self.trouble: Trouble | None = None
        """Why nothing is found yet, after a while."""
        self.about: Axis | None = None
        """The axis that this is about; None where it is about none."""
        self._taken = taken
        self._refused = refused
        self._travels: dict[Axis, Travel] = {}
        self._joining: dict[Axis, AtRest] = {}
        self._since: int | None = None
        self._most: Axis | None = None
        self._kept = Still()

    def travel(self, axis: Axis) -> Travel:
        """What an axis has shown."""
        return self._travels[axis]

    @property
    def most(self) -> Axis | None:
        """The axis that has moved most, and more than by itself; None where none has."""
        return self._most

    def feed(self, time: int, values: Mapping[Axis, float]) -> None:
        """Take what every axis reads at `time` (ns)."""
        if self._since is None:
            self._since = time
        self._take(time, values)
        kept = self._look(time, values)
        if self._most is None or not self._is_pressed(self._most, kept):
            self._explain(time - self._since)
        else:
            self.found = self._most

    def _take(self, time: int, values: Mapping[Axis, float]) -> None:
        for gone in [axis for axis in self._travels if axis not in values]:
            del self._travels[gone]
        for axis, value in values.items():
            if axis not in self.noise:
                rest = self._joining.setdefault(axis, AtRest({}))
                rest.feed(time, {axis: value})
                if not rest.rested:
                    continue
                self.noise[axis] = rest.noise[axis]
            if axis not in self._refused:
                self._travels.setdefault(axis, Travel(value)).take(value)

    def _look(self, time: int, values: Mapping[Axis, float]) -> int:
        """See which axis has moved most; ns that it has been kept down."""
        beyond = {axis: seen.reach - self.noise[axis] for axis, seen in self._travels.items()}
        most = max(beyond, key=lambda axis: beyond[axis], default=None)
        if most is not None and self._travels[most].reach < shows(self.noise[most]):
            most = None
        if most != self._most:
            self._most, self._kept = most, Still()
        if most is None:
            return 0
        value, seen = values[most], self._travels[most]
        still = self._kept.take(time, value, max(NEAR * seen.reach, self.noise[most]))
        return still if seen.away(value) >= PRESSED else 0

    def _is_pressed(self, axis: Axis, kept: int) -> bool:
        """Far, or little and kept there; a taken one was perhaps only brushed, a wheel is held."""
        reach = self._travels[axis].reach
        if reach >= FOUND:
            return True
        enough = max(SPAN_LEAST, NOISES * self.noise[axis])
        may_be_wheel = abs(self._travels[axis].start) < MIDDLE
        soft = axis not in self._taken and not may_be_wheel
        return soft and reach >= enough and kept >= SOFT_FOR

    def _explain(self, waited: int) -> None:
        most = self._most
        if most is not None and self._travels[most].other_side >= max(
            SIDE, shows(self.noise[most])
        ):
            self.trouble, self.about = Trouble.TURNS, most
        elif waited >= PATIENT and most is not None and most not in self._taken:
            self.trouble, self.about = Trouble.TINY, most
        elif waited >= PATIENT and self.trouble not in LASTING:
            self.trouble, self.about = Trouble.NOTHING, None


class Insistence:
    """A pedal that was not asked for is pressed, and kept down until it is taken to be meant."""

    def __init__(self) -> None:
        self.about: Axis | None = None
        """The axis that is kept down; None where none is."""
        self.meant: Axis | None = None
        """The same, once it has been kept down for long."""
        self._travels: dict[Axis, Travel] = {}
        self._since: int | None = None

    def travel(self, axis: Axis) -> Travel:
        """What an axis has shown."""
        return self._travels[axis]

    def feed(self, time: int, values: Mapping[Axis, float]) -> None:
        """Take what the axes read that may be meant."""
        self._travels = {axis: seen for axis, seen in self._travels.items() if axis in values}
        for axis, value in values.items():
            self._travels.setdefault(axis, Travel(value)).take(value)
        down = [axis for axis, value in values.items() if self._is_down(axis, value)]
        if self.about not in down:
            self.about, self._since = (down[0] if down else None), time
        elif self._since is not None and time - self._since >= INSISTED:
            self.meant = self.about

    def _is_down(self, axis: Axis, value: float) -> bool:
        seen = self._travels[axis]
        return seen.reach >= FOUND and seen.away(value) >= PRESSED
