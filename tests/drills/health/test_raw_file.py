"""File of raw counts: what is written reads back, and every mistake is named by its line."""

import json

import numpy as np
import pytest

from drills.health.pedal import measure_health
from drills.health.raw_file import RawFileError, read_raw, written
from drills.trace import Pedal
from tests.drills.health.virtual import TWO, Virtual, read

PEDAL = {
    "pedal": "brake",
    "device": "Quiet",
    "axis": 0,
    "rest": -1.0,
    "full": 1.0,
    "reports_a_second": None,
}
TWO_PEDALS = [PEDAL, {**PEDAL, "pedal": "throttle", "axis": 1}]
HEADER = {"format": "stillfoot pedals", "version": 1, "pedals": TWO_PEDALS}


@pytest.mark.parametrize("pedals", [TWO, tuple(Pedal)], ids=["two", "three"])
def test_a_file_reads_back_with_the_same_health(pedals: tuple[Pedal, ...]) -> None:
    raw = read(Virtual(12, 125, noise=0.3, jumps=1), pedals).raw
    healths = measure_health(raw)

    again = read_raw(written(raw, healths))

    assert again.pedals == raw.pedals
    assert np.array_equal(again.time, raw.time)
    assert np.array_equal(again.counts, raw.counts)
    assert measure_health(again) == healths


def test_the_first_line_names_the_device_and_its_rates() -> None:
    raw = read(Virtual(12, 125)).raw

    header = json.loads(written(raw, measure_health(raw)).splitlines()[0])

    assert (header["format"], header["version"]) == ("stillfoot pedals", 1)
    assert header["reads_a_second"] == 1000
    assert [pedal["device"] for pedal in header["pedals"]] == ["Virtual", "Virtual"]
    assert [pedal["reports_a_second"] for pedal in header["pedals"]] == [125, 125]


def text(*rows: str, **changes: object) -> str:
    """Text of a file with these rows after the first line."""
    return "\n".join([json.dumps({**HEADER, **changes}), *rows])


@pytest.mark.parametrize(
    ("content", "line"),
    [
        ("", "line 1: expected the first line of a file of stillfoot pedals, found nothing"),
        (
            "time,brake",
            "line 1: expected a JSON object with the format 'stillfoot pedals', found 'time,brake'",
        ),
        (
            "[1]",
            "line 1: expected a JSON object with the format 'stillfoot pedals', found [1]",
        ),
        (text(version=2), "line 1: version: expected 1, found 2"),
        (text(pedals=[]), "line 1: pedals: expected a list of two or three pedals, found []"),
        (
            text(pedals=[PEDAL, PEDAL]),
            "line 1: pedals[1].pedal: expected one of throttle, found 'brake'",
        ),
        (
            text(pedals=[{**PEDAL, "rest": 3}, PEDAL]),
            "line 1: pedals[0].rest: expected a number from -1 to 1, found 3",
        ),
        (
            text(pedals=[{**PEDAL, "full": -1.0}, PEDAL]),
            "line 1: pedals[0]: expected rest and full at least 0.2 apart, found -1 and -1",
        ),
        (
            text(pedals=[{"pedal": "brake"}, PEDAL]),
            "line 1: pedals[0]: expected an object of pedal, device, axis, rest, full, "
            "reports_a_second, found {'pedal': 'brake'}",
        ),
        (
            text("0,1,1", "5,2"),
            "line 3: expected a time and 2 counts, with commas between, found '5,2'",
        ),
        (text("0,1,x"), "line 2: expected a whole number from -32768 to 32768, found 'x'"),
        (text("0,1,40000"), "line 2: expected a whole number from -32768 to 32768, found '40000'"),
        (
            text("-5,1,1"),
            "line 2: expected a whole number from 0 to 60000000000, found '-5'",
        ),
        (text("5,1,1", "5,1,1"), "line 3: expected a time after 5, found 5"),
        (text("0,1,1"), "reads from 0 to 2 s: expected 10 a second or more, found fewer"),
        (text(), "reads from 0 to 2 s: expected 10 a second or more, found fewer"),
    ],
)
def test_every_mistake_is_named_by_its_line(content: str, line: str) -> None:
    with pytest.raises(RawFileError) as refused:
        read_raw(content)

    assert str(refused.value) == line
