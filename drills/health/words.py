"""Words about the health of pedals: a line for each pedal, what it cannot show, which levels."""

from __future__ import annotations

from collections.abc import Sequence

from drills.health.luck import Hardware
from drills.health.pedal import PedalHealth
from drills.health.reports import LATE
from drills.level import Level
from drills.measures.device import FINE, SELDOM
from drills.trace import Pedal

PARTLY_LUCK = "partly luck"
"""Mark of a level in the lists on the screen, which have room for little more than its purpose."""
LUCK = f"{PARTLY_LUCK} with these pedals"
"""The same where there is room to say why."""
NAMED_MOST = 4
"""Largest number of levels that are named; more are counted."""
DEAD_TOLD = 15.0
"""Least dead end that is told, in points: a foot that begins late reads as up to 10."""
USED_LEAST = 25.0
"""Least share of an axis that a calibrated travel should fill, in %: a quarter costs two bits."""
OVER_TOLD = 5.0
"""Position past the calibrated ends that is told, in points."""
STILL_TOLD = 1.0
"""Least time on one count that is told, in s."""
LATE_TOLD = 3
"""Least number of late reports that is told: one or two are the computer's."""
NOISE_TOLD = 0.0005
"""Least noise that is told, in points: a third of a step of a 16-bit axis."""
TIMES_TOLD = 0.05
"""Shortest time that is partly luck and still told, in s: levels ask for 0.05 s at the least."""
POINTS_TOLD = 1.0
"""Smallest dip that is partly luck and still told, in points: levels ask for 6 at the least."""


NOTHING = 1e-6
"""Size under which a number is a remainder of reckoning, in any unit of the health of pedals."""


def number(value: float) -> str:
    """A positive number with two significant digits: "0.024", "0.6", "16"; "0" if it is tiny."""
    if value < NOTHING:
        return "0"
    return f"{value:.0f}" if value >= 9.95 else f"{float(f'{value:.2g}'):g}"


def pedal_line(health: PedalHealth) -> str:
    """Line about one pedal: its steps, its noise, and how often it reports."""
    name = health.pedal.value.capitalize()
    if not health.seen or health.step is None:
        return f"{name}: not seen yet. It has not moved."
    noise = health.noise
    parts = [f"steps of {number(health.step)} %"]
    if noise is not None:
        where = " at rest" if health.held is None else ""
        some = f"noise {number(noise)} points" if noise >= NOISE_TOLD else "no noise"
        parts.append(f"{some}{where}")
    if health.timing is not None:
        parts.append(f"{rate_words(health)} reports a second")
    return f"{name}: {', '.join(parts)}"


def rate_words(health: PedalHealth) -> str:
    """Reports a second of a pedal, rounded; a dash where they are not known."""
    return "-" if health.timing is None else number(1 / health.timing.interval)


def oddities(health: PedalHealth) -> list[str]:
    """Sentences about what is wrong with one pedal, beside its steps, noise and rate."""
    if not health.seen:
        return []
    name, said = health.pedal.value, []
    if health.dead_low >= DEAD_TOLD:
        part = f"the first {health.dead_low:.0f} % of its slow press"
        said.append(f"The {name} did not move in {part}: a dead end, or a late start.")
    if health.dead_high >= DEAD_TOLD and health.pedal is Pedal.BRAKE:
        part = f"the last {health.dead_high:.0f} % of its slow press"
        said.append(f"The {name} did not move in {part}: a dead end, or done early.")
    if health.jumps:
        said.append(f"The {name} jumped {_times(health.jumps)}: look at its plug and cable.")
    if health.stalls:
        told = f"The {name} stopped reporting {_times(health.stalls)}"
        said.append(f"{told}: give the pedals a USB port of their own.")
    elif health.timing is not None and health.timing.late >= LATE_TOLD:
        late, apart = health.timing.late, 1000 * LATE * health.timing.interval
        said.append(f"The {name} reports unevenly: {late} times over {apart:.0f} ms apart.")
    if not health.stalls:
        said.extend(_stillness(health))
    if health.axis_used < USED_LEAST:
        said.append(
            f"The {name} uses {health.axis_used:.0f} % of its axis: widen it in its software."
        )
    past = max(health.highest - 100, 0.0)
    if past > OVER_TOLD and health.pedal is Pedal.BRAKE:
        said.append(f"The {name} went {past:.0f} points past full: set it up again.")
    return said


def faults_sentence(healths: Sequence[PedalHealth]) -> str:
    """Sentence about what spoils repetitions, whatever the pedals can show; empty for nothing."""
    seen = {
        "stalls": any(health.stalls for health in healths),
        "jumps": any(health.jumps for health in healths),
    }
    what = " and ".join(name for name, was_seen in seen.items() if was_seen)
    return f"{what.capitalize()} spoil repetitions: see to them first." if what else ""


def _stillness(health: PedalHealth) -> list[str]:
    """Sentence about a pedal that stands still where the foot moves; none if it does not.

    Silence of a pedal that stalls looks the same.
    """
    name = health.pedal.value
    if health.leap is not None:
        return [f"The {name} sticks: pressed slowly it leaps by {number(health.leap)} points."]
    if health.still >= STILL_TOLD and (health.step or 0.0) < FINE:
        held = f"Held, the {name} stood on one value for {health.still:.1f} s"
        return [f"{held}: small moves are lost."]
    return []


def limits_sentence(hardware: Hardware, *, faulty: bool = False) -> str:
    """Sentence about what a rig cannot show, the number that matters first.

    Where it can show enough, the sentence says how much; it is empty for a `faulty` rig, which may
    not be called fine.
    """
    if hardware.is_slow:
        return (
            f"Too slow to judge: {_ms(hardware.interval)} between reports, {_ms(SELDOM)} at most."
        )
    if hardware.is_coarse:
        return f"Too coarse to judge: a step is {number(hardware.step)} points of the brake."
    said = []
    if hardware.dip_least >= POINTS_TOLD:
        because = f"Noise {number(hardware.noise)} points"
        if hardware.extreme == hardware.step:
            because = f"Steps of {number(hardware.step)} points"
        least = f"dips under {number(hardware.dip_least)}"
        if hardware.wander_least >= POINTS_TOLD:
            least += f" and wander under {number(hardware.wander_least)}"
        said.append(f"{because}: {least} are partly luck.")
    if hardware.time_least >= TIMES_TOLD:
        said.append(
            f"{_ms(hardware.interval)} between reports: times under "
            f"{hardware.time_least:.2f} s are partly luck."
        )
    if faulty:
        return " ".join(said)
    return " ".join(said) or f"It shows dips down to {number(hardware.dip_least)} points."


def levels_sentence(
    levels: Sequence[Level], lucky: frozenset[str], hardware: Hardware, faults: str = ""
) -> str:
    """Sentence that names the levels that are partly luck, in the order of `levels`.

    Where there are none, `faults` of the pedals are told in its place.
    """
    named = [level.title for level in levels if level.id in lucky]
    if not hardware.can_judge:
        return "No level can be judged with these pedals."
    if not named:
        return faults or "No level asks for more than these pedals can show."
    if len(named) == len(levels):
        return "Every level is partly luck with these pedals."
    if len(named) > NAMED_MOST:
        return f"{len(named)} levels are {LUCK}; the lists mark them."
    return f"{LUCK.capitalize()}: {', '.join(named)}."


def _times(count: int) -> str:
    return "once" if count == 1 else f"{count} times"


def _ms(seconds: float) -> str:
    return f"{1000 * seconds:.0f} ms"
