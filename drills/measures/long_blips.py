"""Warning for a recording with many long blips: throttle that was no downshift may be among them.

A short acceleration between two corners, or throttle that balances the car at the end of braking,
is a blip by its definition if the brake was on before it. `tests/bench/drives.py` counts them.
"""

from __future__ import annotations

from collections.abc import Sequence

from drills.measures.blip import Pulse

LONG = 0.35
"""Width of a throttle pulse at half its amplitude over which it is long for a blip, in s: twice
that of most feet (common practice)."""
FEWEST = 3
"""Fewest long blips that are warned of, as a count."""
SHARE = 0.03
"""Least share of long blips among all that is warned of."""


def long_blips_warning(pulses: Sequence[Pulse]) -> str | None:
    """Warning for the throttle pulses of a recording; None if few of them are long."""
    long = sum(pulse.width > LONG for pulse in pulses)
    if long < FEWEST or long < SHARE * len(pulses):
        return None
    return (
        f"{long} of {len(pulses)} blips last over {LONG:g} s: "
        "throttle that was no downshift may be among them"
    )
