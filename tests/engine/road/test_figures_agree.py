"""The screens of a drive agree: the lead sentence, the figure, the table and the terminal."""

import re
from collections.abc import Sequence
from datetime import UTC, datetime

from hypothesis import given, settings
from hypothesis import strategies as st

from engine.practice.remeasuring import Remeasuring
from engine.road.blips import RoadBlip
from engine.road.drive import Drive
from engine.road.figure_rows import FigureRow, figure_rows
from engine.road.summary import summary_of
from engine.road.summary_words import summary_words
from engine.road.transfer import ENOUGH, DrillComparison, Drilled, comparison
from engine.road.words import dip_figure, lead_words, short_words, transfer_words

AT = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)
LEAD = re.compile(r"([\d.]+) points (more|less) than in your drills, likely ([\d.]+) to ([\d.]+)\.")
POINTS = st.floats(0, 40)
DIPS = st.lists(POINTS | st.none(), min_size=1, max_size=40) | st.lists(
    st.floats(18, 22), min_size=8, max_size=20
)
DRILLS = st.lists(POINTS, max_size=30) | st.lists(st.floats(4, 40), min_size=8, max_size=20)


def a_drive(dips: Sequence[float | None]) -> Drive:
    """A drive of runs of three blips with these dips; None where one is not scored."""
    blips = tuple(
        RoadBlip(number // 3, number % 3 + 1, float(number), 60.0, reason="a gap")
        if dip is None
        else RoadBlip(
            *(number // 3, number % 3 + 1, float(number), 55.0 + number),
            *(dip, 1.0, number - 5.0, None if number % 4 == 3 else dip - 6.0),
            extra_distance=dip / 8,
        )
        for number, dip in enumerate(dips)
    )
    return Drive(AT, "drive.csv", "0" * 64, 754.4, blips)


def beside(drive: Drive, eased: Sequence[float], single: Sequence[float]) -> list[DrillComparison]:
    """Comparisons of a drive with drills of easing off, and of single blips."""
    kinds = {"trail": eased, "blip": single}
    return [
        comparison(kind, drive.dips, Drilled(tuple(dips), tuple(range(len(dips))), 2))
        for kind, dips in kinds.items()
    ]


def numbers(texts: Sequence[str]) -> set[str]:
    """All numbers in texts."""
    return {number for text in texts for number in re.findall(r"\d+(?:\.\d+)?", text)}


def value_of(rows: Sequence[FigureRow], name: str) -> str:
    """Value of the first row with a name; empty if there is none."""
    return next((value for label, value, _ in rows if label == name), "")


@settings(max_examples=100, deadline=None)
@given(DIPS, DRILLS, DRILLS)
def test_lead_figure_table_and_terminal_have_the_same_numbers(
    dips: list[float | None], eased: list[float], single: list[float]
) -> None:
    drive = a_drive(dips)
    compared = beside(drive, eased, single)
    summary = summary_of(drive.blips)

    rows, lead, figure = (
        figure_rows(drive, compared),
        lead_words(drive, compared),
        dip_figure(drive),
    )

    told = summary_words(summary, drive.seconds)
    told += transfer_words(drive, compared) if summary.scored else []
    assert numbers([text for row in rows for text in row]) == numbers(told)
    assert (figure is None) == (drive.dip is None)
    if figure is None:
        assert lead == "No blip could be scored."
        return
    assert value_of(rows, "typical dip") == f"{figure.value} points"
    assert f"{figure.value} " in f"{short_words(drive, compared)} "
    assert numbers([lead]) <= numbers(told)
    alike = compared[0]
    matched = LEAD.fullmatch(lead)
    assert (matched is not None) == (alike.more is not None and alike.tells)
    if matched is not None and alike.low is not None:
        more, low, high = (float(matched[group]) for group in (1, 3, 4))
        drill = float(value_of(rows, "in the drills").removesuffix(" points"))
        assert abs(abs(float(figure.value) - drill) - more) < 1e-6
        assert low <= more <= high
        assert (matched[2] == "less") == (float(figure.value) < drill)
        assert value_of(rows, "on the road") == f"{matched[1]} {matched[2]}"
    elif alike.more is not None:
        assert lead == "Road and drills cannot be told apart."
        assert value_of(rows, "on the road") == "cannot tell"
    elif alike.dip is not None:
        assert lead.startswith("Too few to compare")
        assert min(len(drive.dips), len(eased)) < ENOUGH
        assert value_of(rows, "on the road") == "too few"
    else:
        assert lead == "No drill measured the same way yet."
        assert value_of(rows, "in the drills") in ("none yet", "none yet")


def test_nothing_is_compared_while_the_drills_are_measured_again() -> None:
    drive, waits = a_drive([6.0] * 9), Remeasuring(3, 9)

    assert lead_words(drive, (), waits) == "Your drills are being measured again."
    assert figure_rows(drive, (), waits)[-1] == ("in the drills", "later", waits.words)
    assert lead_words(a_drive([None]), (), waits) == "No blip could be scored."


def test_a_drive_without_blips_has_no_figures() -> None:
    drive = a_drive([])

    assert (figure_rows(drive, ()), dip_figure(drive)) == ([], None)
    assert lead_words(drive, ()) == "No blips found."
