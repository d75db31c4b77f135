"""Scripted repetition of every kind, with its level file and the measures it must have.

A plan gives brake, throttle and clutch in percent, by seconds since the first cue; before the cue
the brake is on its target.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

PULSE = 0.24
"""Length of a scripted throttle pulse, a half-sine, in seconds."""
PEAK = 70.0
"""Height of a scripted throttle pulse, in percent."""
LATER = 0.03
"""Seconds by which the brake follows the throttle."""
RISING = math.asin(0.1) / math.pi * PULSE
"""Seconds from the begin of a pulse to a tenth of its height, where its onset is measured."""
COMMON = """
tolerance = 30
band = 8
aid = "none"
pass = { clean = 1, of = 1 }
"""
FOREPERIOD = "foreperiod = { shift = 1.0, mean = 0.1, cut = 0.2 }\n"

Percent = tuple[float, float, float]
Plan = Callable[[float], Percent]


def half_sine(share: float) -> float:
    """Half-sine from 0 up to 1 and back over a share from 0 to 1; 0 outside."""
    return math.sin(math.pi * share) if 0 < share < 1 else 0.0


@dataclass(frozen=True)
class Scripted:
    """Scripted repetition of one kind."""

    kind: str
    """Name of the kind."""
    rest: float
    """Brake before the first cue, in percent."""
    plan: Plan
    """Position of the pedals from the first cue on."""
    level: str
    """Lines of the level file beside the common ones, limits included."""
    known: dict[str, float]
    """Expected measures, by name."""
    target: str = "targets"
    """Key of the level file that lists the target."""
    repetitions: int = 1
    """Number of repetitions in a set."""

    @property
    def id(self) -> str:
        """Id of the level; the game lists levels in the order of their ids."""
        return f"known-{self.kind}"

    @property
    def text(self) -> str:
        """Text of the level file."""
        head = f'id = "{self.id}"\ntitle = "Known {self.kind}"\nkind = "{self.kind}"\n'
        asked = f"{self.target} = [60]\nrepetitions = {self.repetitions}"
        return f'{head}purpose = "Known beforehand."\n{asked}{COMMON}{self.level}'

    def write(self, folder: Path) -> None:
        """Write the level file into a folder."""
        (folder / f"{self.id}.toml").write_text(self.text, encoding="utf-8")


def blips(onsets: tuple[float, ...], dips: tuple[float, ...], held: float = 60.0) -> Plan:
    """Plan of a held brake that dips by so many points after each throttle pulse."""

    def plan(since: float) -> Percent:
        throttle = sum(PEAK * half_sine((since - at) / PULSE) for at in onsets)
        lost = (
            dip * half_sine((since - at - LATER) / PULSE)
            for at, dip in zip(onsets, dips, strict=True)
        )
        return held - sum(lost), throttle, 0.0

    return plan


def easing(begins: float, seconds: float, onset: float, dip: float) -> Plan:
    """Plan of a straight release from 60 %, with a blip on it that costs `dip` points."""

    def plan(since: float) -> Percent:
        share = min(max((since - begins) / seconds, 0.0), 1.0)
        throttle = PEAK * half_sine((since - onset) / PULSE)
        return 60 * (1 - share) - dip * half_sine((since - onset - LATER) / PULSE), throttle, 0.0

    return plan


def squeeze(since: float) -> Percent:
    """Squeeze from rest at 0.25 s to 66 % at 0.55 s and to 60 % at 0.75 s, straight each way."""
    if since < 0.55:
        return 66 * min(max((since - 0.25) / 0.3, 0.0), 1.0), 0.0, 0.0
    return 66 - 6 * min((since - 0.55) / 0.2, 1.0), 0.0, 0.0


def shift(since: float) -> Percent:
    """Clutch half way down at 0.25 s, blip 0.05 s later, clutch up 0.06 s after the blip."""
    brake, throttle, _ = blips((0.30 - RISING,), (10.0,))(since)
    ends = 0.30 - RISING + PULSE
    down = min(max((since - 0.24) / 0.02, 0.0), 1.0)
    up = min(max((since - ends - 0.06) / 0.02, 0.0), 1.0)
    return brake, throttle, 100 * (down - up)


def zone(since: float) -> Percent:
    """Zone whose brake is on at POINT, straight to 60 %, and eased off as late as LAG.

    Two blips cost 6 and 9 points.
    """
    brake = 60 * min(max((since - POINT - 0.05) / 0.2, 0.0), 1.0)
    eased = (since - POINT - LAG - (ZONE_SECONDS - 1.0)) / 1.0
    held = brake * (1 - min(max(eased, 0.0), 1.0))
    onsets = (POINT + BEATS[0] + 0.02, POINT + BEATS[1] + 0.05)
    dipped, throttle, _ = blips(onsets, (6.0, 9.0), held)(since)
    return dipped, throttle, 0.0


POINT = 3 * 0.6
"""Seconds from the first knock of the zone to its braking point."""
LAG = 0.10
"""Seconds by which the scripted brake follows the line of the zone."""
ZONE_SECONDS = (200 - 50) / 3.6 / 12 + 1.0 / 2
"""Seconds from the braking point to turn-in: easing off for 1 s takes half as much speed off."""
BEATS = (50 / 3.6 / 12, 100 / 3.6 / 12)
"""Seconds from the braking point to the downshifts, evenly spread in speed, where all is braked."""
BEAT = 0.6
"""Seconds between two beats of the run."""
FIRST = 2 * BEAT
"""Seconds from the first beat of the count-in to the first cue."""
ONSETS = (FIRST + 0.05, FIRST + BEAT + 0.09, FIRST + 2 * BEAT + 0.03)
"""Seconds at which the pulses of the run begin: 0.05, 0.09 and 0.03 after their cues."""
EASED = 2.0
"""Seconds of the release."""
KINDS = (
    Scripted(
        "hold",
        60.0,
        lambda _: (62.0, 0.0, 0.0),
        "duration = 1.5\n[limits]\ntotal_error = 10\n",
        {"constant_error": 2.0, "total_error": 2.0, "variable_error": 0.0, "drift": 0.0},
    ),
    Scripted(
        "squeeze",
        0.0,
        squeeze,
        f"duration = 1.5\n{FOREPERIOD}[limits]\novershoot = 20\n",
        {
            "overshoot": 6.0,
            "reaction": 0.25 + 0.3 * 6 / 66,
            "rise": 0.3 * 48 / 66,
            "peak_time": 0.55,
            # It comes into the band, 8 under the target, and never leaves it again.
            "settle": 0.25 + 0.3 * 52 / 66,
            "offset": 0.0,
        },
    ),
    Scripted(
        "blip",
        60.0,
        blips((0.25,), (9.0,)),
        f"{FOREPERIOD}[limits]\ndip = 30\n",
        {
            "dip": 9.0,
            "rebound": 0.0,
            "surge": 0.0,
            "reaction": 0.25 + RISING,
            "peak": PEAK,
            # Exact for a half-sine: two thirds of its length lie above the half.
            "width": PULSE * 2 / 3,
            # From the onset until the half-sine is back within the band of 8.
            "settle": LATER + PULSE * (1 - math.asin(8 / 9) / math.pi) - RISING,
            # The brake is the pulse once more, so much smaller and so much later.
            "coupling": -9 / PEAK,
            "lag": LATER,
        },
    ),
    Scripted(
        "run",
        60.0,
        blips(ONSETS, (4.0, 8.0, 6.0)),
        f"tempo = {BEAT}\n{FOREPERIOD}[limits]\ndip = 30\n",
        {
            "dip": 8.0,
            "mean_dip": 6.0,
            "dip_1": 4.0,
            "dip_2": 8.0,
            "dip_3": 6.0,
            "lateness": 0.09 + RISING,
            "lateness_1": 0.05 + RISING,
            "lateness_2": 0.09 + RISING,
            "lateness_3": 0.03 + RISING,
            # Off by 0.04 and by -0.06 s.
            "spacing_error": math.sqrt((0.04**2 + 0.06**2) / 2),
        },
    ),
    Scripted(
        "trail",
        60.0,
        easing(0.3, EASED, 1.05, 7.0),
        f"ease = {EASED}\nblips = 1\n{FOREPERIOD}[limits]\ndip = 30\nramp_worst = 30\n",
        {
            "dip": 7.0,
            "surge": 0.0,
            "lateness": 1.05 - 0.4 * EASED + RISING,
            "release_start": 0.3 + 0.05 * EASED,
            "release_time": (55 / 60 - 0.05) * EASED,
            "ramp_worst": 0.0,
            "ramp_error": 0.0,
            "reversals": 0.0,
        },
    ),
    Scripted(
        "clutch",
        60.0,
        shift,
        f"{FOREPERIOD}[limits]\ndip = 30\n",
        {
            "dip": 10.0,
            "clutch_down": 0.25,
            "reaction": 0.30,
            # Under 20 % after 0.8 of the 0.02 s it takes.
            "clutch_up": 0.30 - RISING + PULSE + 0.06 + 0.016,
            "under_clutch": 1.0,
        },
    ),
    Scripted(
        "zone",
        0.0,
        zone,
        f"from = 200\nto = 50\ndecel = 12\nease = 1\nshifts = 2\n{FOREPERIOD}[limits]\ndip = 30\n",
        {
            # A tenth of the peak, and from there to nine tenths, on a straight of 0.2 s.
            "brake_on": 0.05 + 0.02,
            "rise": 0.16,
            "peak_error": 0.0,
            "line_lag": LAG,
            "line_error": 0.0,
            "dip": 9.0,
            "dip_1": 6.0,
            "dip_2": 9.0,
            "lateness": 0.05 + RISING,
            "lateness_1": 0.02 + RISING,
            "lateness_2": 0.05 + RISING,
            # It is under 5 % a twelfth of the easing off before its end.
            "off_at": LAG - 5 / 60,
        },
        target="peak",
    ),
)
BLIP = next(one for one in KINDS if one.kind == "blip")
MIXED = """
id = "known-mixed"
title = "Known mixed"
kind = "mixed"
purpose = "Draws the one blip that is passed."
tolerance = 30
targets = [60]
repetitions = 1
needs = ["known-blip"]
"""
