"""Chart of all blips of a drive over each other, each minus its chord, the typical one bold."""

from __future__ import annotations

import math
from collections.abc import Sequence

from drills.deviation import Deviation
from drills.typical import median_of_most
from engine.kit.area import Area
from engine.kit.charts import Paper
from engine.kit.charts_blips import BlipsKind, beyond_words, blips_chart, blips_reach

BEFORE = 0.2
"""Least time before the beginning of a blip that the chart shows, in s."""


def overlay_chart(
    paper: Paper,
    area: Area,
    blips: Sequence[Deviation],
    drill: tuple[str, Deviation] | None = None,
    *,
    each: str = "blip",
    band: float | None = None,
) -> None:
    """Draw every blip of a drive as a thin curve, the typical one bold, and the drill's dashed.

    `drill` is the label and the median curve of the drills, `each` what a thin curve is of, `band`
    a tolerance about 0 in points. There is at least one blip.
    """
    first = min(-BEFORE, *(float(blip.time[0]) for blip in blips))
    last = max(float(blip.time[-1]) for blip in blips)
    span = (math.floor(round(10 * first, 6)) / 10, math.ceil(round(10 * last, 6)) / 10)
    kind = BlipsKind(span, blips[-1].zero, f"a {each}", band)
    reach = max(blips_reach(blips), blips_reach([drill[1]] if drill is not None else []))
    heading = f"{len(blips)} {each}s." if len(blips) > 1 else f"One {each}."
    heading = f"{heading} {beyond_words(blips, reach)}".strip()
    blips_chart(paper, area, heading, blips, median_of_most(blips), reach, drill, kind)
