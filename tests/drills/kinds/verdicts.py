"""Random verdicts of every kind of drill, for the tests of what is said of them."""

import math
from collections.abc import Mapping
from dataclasses import replace

from hypothesis import strategies as st

from drills.kinds import KINDS
from drills.level import Level
from drills.measures.catalogue import CATALOGUE, PLACES
from drills.measures.tempo import farthest
from drills.score import Verdict, weigh
from tests.drills.kinds.driven_zone import ZONE
from tests.drills.kinds.test_squeeze import SQUEEZE
from tests.drills.kinds.trail_case import asks
from tests.made import BLIP, HOLD

RUN = replace(
    BLIP,
    kind=KINDS["run"],
    own={**BLIP.own, "tempo": 0.8, "blips.least": 2.0, "blips.most": 4.0},
)
CLUTCH = replace(BLIP, kind=KINDS["clutch"])
LEVELS: Mapping[str, Level] = {
    "blip": BLIP,
    "run": RUN,
    "clutch": CLUTCH,
    "hold": HOLD,
    "squeeze": SQUEEZE,
    "trail": asks(2),
    "zone": ZONE,
}
"""A level of each kind that judges; the mixed kind only draws."""
LIMITED = [
    (kind, name)
    for kind, level in LEVELS.items()
    for name in KINDS[kind].limitable
    if name not in ("cv", "in_band") or level is HOLD
]
"""Every kind with every measure that its levels may limit."""
GREATEST = {"points": 60.0, "s": 2.0, "m": 5.0, "%": 100.0, "points/s": 6.0, "points·s": 30.0}
"""Largest size of a random value, by its unit."""
SIGNED = (
    *("constant_error", "base_error", "offset", "lateness", "drift", "coupling", "early"),
    *("shift_at", *(f"shift_at_{place}" for place in PLACES)),
    *("brake_on", "peak_error", "line_worst", "off_at"),
)
"""Measures that may be under 0, beside the lead of the brake and its times."""


def value_of(name: str) -> st.SearchStrategy[float]:
    """Random values of a measure, in its unit: nothing, a little, and much."""
    greatest = GREATEST.get(CATALOGUE[name].unit, 4.0)
    low = -greatest if name in SIGNED else 0.0
    if name in ("dip_at", "surge_at", "lead"):
        low = -0.4
    sizes = st.floats(low, greatest) | st.floats(max(low, -3.0), min(greatest, 3.0))
    return sizes | st.just(0.0)


@st.composite
def verdicts(draw: st.DrawFn, kind: str, name: str) -> tuple[Level, Verdict]:
    """A level that limits one measure, and a verdict in which everything was done as asked."""
    level = LEVELS[kind]
    measures: dict[str, float | None] = {
        each: draw(value_of(each)) for each in KINDS[kind].measures
    }
    measures |= {"onset": 2.0, "end": 2.0 + draw(st.floats(0.05, 0.8)), "base": 60.0}
    measures = {each: value for each, value in measures.items() if each in KINDS[kind].measures}
    limit = draw(st.floats(0.05, 1.5)) * max(abs(measures[name] or 0.0), 0.01)
    if CATALOGUE[name].form == ".0f" and CATALOGUE[name].unit == "":
        limit, measures[name] = math.ceil(limit), float(round(measures[name] or 0.0))
    _agree(draw, kind, measures)
    limited = replace(level, limits={name: float(f"{limit:.3g}")})
    return limited, weigh(measures, limited.limits)


def _agree(draw: st.DrawFn, kind: str, measures: dict[str, float | None]) -> None:
    """Make measures that hang together do so: the dip of a run is that of its deepest blip."""
    if kind == "run":
        count = draw(st.integers(2, 4))
        for place in PLACES[count:]:
            del measures[f"dip_{place}"], measures[f"lateness_{place}"]
            del measures[f"shift_at_{place}"]
        shifts = [measures[f"shift_at_{place}"] or 0.0 for place in PLACES[:count]]
        measures["shift_at"] = farthest(shifts)
        dips = [measures[f"dip_{place}"] or 0.0 for place in PLACES[:count]]
        measures["dip"] = max(dips)
    elif kind == "zone":
        count = draw(st.integers(1, 4))
        for place in PLACES[count:]:
            del measures[f"dip_{place}"], measures[f"lateness_{place}"]
        measures["dip"] = max(measures[f"dip_{place}"] or 0.0 for place in PLACES[:count])
        late = [measures[f"lateness_{place}"] or 0.0 for place in PLACES[:count]]
        measures["lateness"] = max(late, key=abs)
    elif kind == "trail":
        measures["dip"] = max(measures["dip_1"] or 0.0, measures["dip_2"] or 0.0)
    elif kind == "hold":
        bias, spread = measures["constant_error"] or 0.0, measures["variable_error"] or 0.0
        measures["total_error"] = math.hypot(bias, spread)
