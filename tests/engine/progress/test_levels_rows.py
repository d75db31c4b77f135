"""Page of the levels: a row for each stage, its marks beside its name."""

import pygame
import pytest

from engine.kit import theme
from engine.kit.area import Area
from engine.kit.canvas import Fonts
from engine.ladder.level_files import SHIPPED, load_levels
from engine.progress.charts_levels import MARKS_LEFT, levels_chart
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.engine.progress.pictures import progress

PROGRESS = progress(load_levels([SHIPPED]), 30)
AREA = Area(theme.MARGIN, 300.0, theme.ACROSS, 560.0)


@pytest.fixture(scope="module")
def canvas() -> RecordingCanvas:
    """The rows of all stages of a history of ten years, a pixel for each canvas unit."""
    pygame.font.init()
    drawing = RecordingCanvas((theme.WIDTH, theme.HEIGHT), Fonts())
    levels_chart(drawing, AREA, PROGRESS)
    return drawing


def test_the_marks_of_a_stage_stand_at_the_height_of_its_name(canvas: RecordingCanvas) -> None:
    names = {stage.name for stage in PROGRESS.stages}
    middles = {text.text: text.ink.centery for text in canvas.texts if text.text in names}

    assert len(middles) == len(names)
    for name, middle in middles.items():
        beside = [y for (_, y), _ in canvas.discs if abs(y - middle) < theme.SMALL / 4]
        assert len(beside) >= 3, name


def test_the_marks_of_a_stage_begin_right_of_all_names(canvas: RecordingCanvas) -> None:
    names = [text for text in canvas.texts if text.text in {one.name for one in PROGRESS.stages}]
    rows = [text.ink.centery for text in names]

    marks = [x for (x, y), _ in canvas.discs if min(abs(y - row) for row in rows) < 10]

    assert max(text.ink.right for text in names) < AREA.left + MARKS_LEFT < min(marks)


def test_all_rows_are_inside_the_area(canvas: RecordingCanvas) -> None:
    assert min(y for (_, y), _ in canvas.discs) > AREA.top
    assert max(text.ink.bottom for text in canvas.texts) <= AREA.bottom
