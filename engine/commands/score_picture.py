"""Picture of all blips of a recording that `stillfoot score --plot` saves."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from drills.deviation import Deviation
from engine.commands.data import all_levels, read_data
from engine.commands.options import local_now
from engine.kit import theme
from engine.kit.area import Area
from engine.kit.blips_overlay import overlay_chart
from engine.kit.picture_file import as_png
from engine.road.curves import drill_curve
from engine.store.opening import is_new

AREA = Area(theme.MARGIN, 60, theme.WIDTH - 2 * theme.MARGIN, theme.HEIGHT - 120)
"""Place of the chart of all blips in a picture."""


def blips_png(pictures: Sequence[Deviation], tolerance: float | None, folder: Path) -> bytes:
    """PNG of all blips of a recording over each other, their median bold.

    The median of the drills in the history is dashed, if the data folder has one and the blips are
    measured against their chords. `tolerance` in points is drawn as a band about 0. Raises
    StoreError, LevelError.
    """
    is_chord = pictures[-1].zero == "straight"
    drill = None
    if is_chord and not is_new(folder):
        today = local_now().date()
        drill = read_data(folder, all_levels(folder), lambda history: drill_curve(history, today))
    each = "blip" if is_chord else "run"
    return as_png(
        lambda canvas: overlay_chart(canvas, AREA, pictures, drill, each=each, band=tolerance)
    )
