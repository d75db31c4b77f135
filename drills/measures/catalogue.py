"""Catalogue of all measures: unit, label, number format, and which way is better.

The definition of a measure is in the docstring of its field, in the other files of this package.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass


@dataclass(frozen=True)
class Measure:
    """How one measure is named, written and limited."""

    name: str
    """Name of the measure in results and files."""
    unit: str
    """Unit of the measure's value; empty for a plain number."""
    label: str
    """Name of the measure on the screen, a word or two."""
    form: str
    """Number format of the measure's value on the screen, without the unit."""
    less_is_better: bool = False
    """Whether less of the measure is better, so that a level may set its largest clean value."""

    def written(self, value: float | None, finest: int | None = None) -> str:
        """Value of the measure as text, with its unit; one that rounds to 0 has no sign.

        `finest` is the largest number of decimals of a time in s; None for those of its form.
        """
        if value is None:
            return "never"
        form = self.form
        if finest is not None and self.unit == "s":
            form = f"{form[:-2]}{min(int(form[-2]), finest)}f"
        number = format(value, form)
        unsigned = format(0.0, form.lstrip("+"))
        return self.with_unit(unsigned if number.lstrip("+-") == unsigned else number)

    def with_unit(self, number: str) -> str:
        """A number that is text already, with the unit of the measure added."""
        single = self.unit == "points" and number.lstrip("+-") == "1"
        return f"{number} {'point' if single else self.unit}".rstrip()


_LESS = True

PLACES = (1, 2, 3, 4)
"""Places that a blip may have in a run, from the first."""

CATALOGUE: Mapping[str, Measure] = {
    measure.name: measure
    for measure in (
        Measure("mean", "%", "Mean", ".1f"),
        Measure("constant_error", "points", "Off target", "+.1f", _LESS),
        Measure("variable_error", "points", "Wander", ".1f", _LESS),
        Measure("total_error", "points", "Error", ".1f", _LESS),
        Measure("cv", "", "Wander, relative", ".3f", _LESS),
        Measure("swing", "points", "Swing", ".0f", _LESS),
        Measure("in_band", "", "In the band", ".2f"),
        Measure("drift", "points/s", "Drift", "+.1f", _LESS),
        Measure("tremor", "points", "Tremor", ".2f", _LESS),
        Measure("reaction", "s", "Reaction", ".2f", _LESS),
        Measure("rise", "s", "Rise", ".2f", _LESS),
        Measure("overshoot", "points", "Overshoot", ".0f", _LESS),
        Measure("peak_time", "s", "Peak after", ".2f"),
        Measure("settle", "s", "Settled in", ".2f", _LESS),
        Measure("onset", "s", "Blip began", ".2f"),
        Measure("end", "s", "Blip ended", ".2f"),
        Measure("peak", "%", "Throttle", ".0f"),
        Measure("width", "s", "Blip width", ".2f", _LESS),
        Measure("fall", "s", "Fall", ".2f", _LESS),
        Measure("base", "%", "Held", ".1f"),
        Measure("before", "%", "Before", ".1f"),
        Measure("after", "%", "After", ".1f"),
        Measure("carry", "points", "Meant change", "+.1f"),
        Measure("early", "points", "Gone early", ".1f"),
        Measure("base_error", "points", "Off target", "+.1f", _LESS),
        Measure("offset", "points", "Off at end", "+.0f", _LESS),
        Measure("surge_at", "s", "Overshoot after", ".2f"),
        Measure("dip", "points", "Dip", ".0f", _LESS),
        Measure("mean_dip", "points", "Average dip", ".0f", _LESS),
        Measure("dip_at", "s", "Dip after", ".2f"),
        Measure("dip_at_50", "points", "Dip at half", ".0f"),
        Measure("lead", "s", "Early roll", "+.2f"),
        Measure("rebound", "points", "Overshoot coming back", ".0f", _LESS),
        Measure("surge", "points", "Overshoot", ".0f", _LESS),
        Measure("shortfall", "points·s", "Shortfall", ".2f", _LESS),
        Measure("excess", "points·s", "Excess", ".2f", _LESS),
        Measure("coupling", "", "Coupling", "+.2f", _LESS),
        Measure("lag", "s", "Lag", "+.3f"),
        Measure("extra_distance", "m", "Extra distance", ".1f", _LESS),
        Measure("ramp_error", "points", "Off straight", ".1f", _LESS),
        Measure("ramp_worst", "points", "Farthest off straight", ".1f", _LESS),
        Measure("reversals", "", "Reversals", ".0f", _LESS),
        Measure("release_start", "s", "Eased after", ".2f", _LESS),
        Measure("release_time", "s", "Came down in", ".2f", _LESS),
        Measure("spacing_error", "s", "Off the beat", ".2f", _LESS),
        Measure("lateness", "s", "From the click", "+.2f", _LESS),
        Measure("clutch_down", "s", "Clutch down", ".2f", _LESS),
        Measure("clutch_up", "s", "Clutch up", ".2f", _LESS),
        Measure("under_clutch", "", "Under clutch", ".2f"),
        Measure("shift_at", "s", "Shift after peak", "+.2f", _LESS),
        Measure("brake_on", "s", "Braked after", "+.2f", _LESS),
        Measure("peak_error", "points", "Off the peak", "+.0f", _LESS),
        Measure("line_error", "points", "Off the line", ".1f", _LESS),
        Measure("line_worst", "points", "Farthest off line", "+.0f", _LESS),
        Measure("line_lag", "s", "Behind the tone", ".2f"),
        Measure("off_at", "s", "Off the brake", "+.2f", _LESS),
        Measure("knocks", "", "High knocks", ".0f"),
        Measure("counted", "", "Counted", ".0f"),
        *(Measure(f"dip_{place}", "points", f"Dip {place}", ".0f") for place in PLACES),
        *(Measure(f"lateness_{place}", "s", f"From click {place}", "+.2f") for place in PLACES),
        *(Measure(f"shift_at_{place}", "s", f"Shift {place}", "+.2f") for place in PLACES),
    )
}


def limitable(names: Iterable[str]) -> tuple[str, ...]:
    """The measures among `names` that a level may limit: those of which less is better."""
    return tuple(name for name in names if CATALOGUE[name].less_is_better)
