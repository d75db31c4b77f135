"""What pedals do to a repetition, written a second time: literally and slowly, on a list a ms.

A trace is read every millisecond here, so that a position is the index of a sample and of a grid
point. Values are in %, windows are in ms.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from statistics import median

Values = list[float]
Pulse = tuple[int, int]


def far(one: float, other: float) -> bool:
    """Whether two values are more than 8 points apart."""
    return abs(one - other) > 8


def straightened(points: Sequence[int], values: Values) -> Values:
    """The values at some ms without the slope of the straight line through them."""
    middle = sum(points) / len(points)
    power = sum((point - middle) ** 2 for point in points)
    slope = sum((point - middle) * values[place] for place, point in enumerate(points)) / power
    return [values[place] - slope * (point - middle) for place, point in enumerate(points)]


def jump_at(values: Values, first: int) -> int | None:
    """Where a jump that begins at `first` is over; None where none does."""
    before, after = values[first - 1], first
    while far(values[after], before):
        after += 1
        if after == len(values) or after > first + 20:
            return None
    if after == first:
        return None
    off = min(min(abs(value - before), abs(value - values[after])) for value in values[first:after])
    following = [after]
    while following[-1] + 1 < min(after + 20, len(values)):
        if far(values[following[-1] + 1], values[following[-1]]):
            break
        following.append(following[-1] + 1)
    around = [*range(max(first - 20, 0), first), *following]
    way = straightened(around, [values[point] for point in around])
    return after if off > 8 and max(way) - min(way) <= max(4, off / 4) else None


def cleaned(values: Values) -> tuple[Values, list[Pulse]]:
    """The values with each jump replaced by the value before it, and where the jumps were."""
    clean, jumps = list(values), []
    for first in range(1, len(values)):
        after = jump_at(clean, first) if far(values[first], values[first - 1]) else None
        if after is not None:
            clean[first:after] = [clean[first - 1]] * (after - first)
            jumps.append((first, after))
    return clean, jumps


def changes(values: Values, opens: int = 0, closes: int | None = None) -> list[int]:
    """The ms in a window at which the value is another than the one before."""
    points = range(max(opens, 1), len(values) if closes is None else closes)
    return [point for point in points if values[point] != values[point - 1]]


def apart(points: Sequence[int]) -> list[int]:
    """The times from one ms to the next."""
    return [later - sooner for sooner, later in pairwise(points)]


def interval_in_pulses(throttle: Values, pulses: Sequence[Pulse]) -> float | None:
    """Median ms between changes of the throttle inside its pulses; None for under 3."""
    waits = [wait for pulse in pulses for wait in apart(changes(throttle, *pulse))]
    return median(waits) if len(waits) >= 3 else None


def interval(pedals: Sequence[Values], pulses: Sequence[Pulse]) -> float | None:
    """Median ms between reports: in pulses, or else of any pedal, of those under 0.25 s."""
    told = interval_in_pulses(pedals[1], pulses)
    if told is not None:
        return told
    points = sorted({point for values in pedals for point in changes(values)})
    waits = [wait for wait in apart(points) if wait < 250]
    return median(waits) if len(waits) >= 10 else None


def step(values: Values) -> float | None:
    """The smallest change from one value to the next; None for none."""
    return min((abs(values[at] - values[at - 1]) for at in changes(values)), default=None)


def is_stalled(values: Values, every: float, opens: int) -> bool:
    """Whether a pedal was silent, and then far off, with much less to come."""
    smallest, points = step(values) or 0.0, changes(values)
    for place, point in enumerate(points):
        silent = point - (points[place - 1] if place else 0)
        change = abs(values[point] - values[point - 1])
        following = points[place + 1] if place + 1 < len(points) else None
        more = 0.0
        if following is not None and following - point <= 2 * every:
            more = abs(values[following] - values[following - 1])
        if (
            len(points) > 1
            and point >= opens
            and silent > max(40, 4 * every)
            and change >= max(3, 3 * smallest)
            and change > 2 * more
        ):
            return True
    return False


@dataclass
class Pedals:
    """What the repetitions before have told."""

    tops: Values = field(default_factory=list)
    steps: Values = field(default_factory=list)

    def fault(
        self, pedals: Sequence[Values], pulses: Sequence[Pulse], opens: int, closes: int
    ) -> tuple[str, str] | None:
        """The reason why a repetition is not judged, and the pedal; None where it is judged."""
        both = [cleaned(values) for values in pedals]
        clean, jumps = [values for values, _ in both], [found for _, found in both]
        brake, names = clean[0], ("brake", "throttle", "clutch")
        before, top, smallest = self.tops[-2:], max(brake), step(brake)
        self.tops.append(top)
        self.steps += [] if smallest is None else [smallest]
        told = interval_in_pulses(clean[1], pulses)
        if told is not None and told > 40:
            return "pedals report too seldom", ""
        if self.steps and min(self.steps) < 0.3:
            if top >= 5 and before == [top, top] and longest(brake, top) >= 100:
                return "brake at its end", "brake"
            last = brake[closes - 1001 : closes]
            if closes - 1000 >= opens and brake[closes - 1] >= 5 and len(set(last)) == 1:
                return "brake did not move", "brake"
        every = interval(clean, pulses)
        for name, values in zip(names, clean, strict=False):
            if every is not None and every <= 20 and is_stalled(values, every, opens):
                return "pedals stalled", name
        counts = [sum(after > opens for _, after in found) for found in jumps]
        if sum(counts) > 2:
            return "pedal jumped", names[counts.index(max(counts))]
        return None


def longest(values: Values, value: float) -> int:
    """The longest time for which the values were one value, in ms."""
    most = lasted = 0
    for each in values:
        lasted = lasted + 1 if each == value else 0
        most = max(most, lasted)
    return most - (1 if values[-1] == value and lasted == most else 0)
