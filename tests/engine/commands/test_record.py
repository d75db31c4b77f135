"""The command `stillfoot record`: what it refuses, and how it ends."""

from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from drills.trace import Sample
from engine.commands.drive_report import store_drive
from engine.commands.record import RecordError, bind_pedals, looking
from engine.pedals.bound import Binding
from engine.pedals.rig import Rig
from engine.pedals.sdl import Devices
from engine.road.drive import Drive
from engine.road.journal import Journal
from engine.road.recorder import DriveRecorder
from engine.setup.rigs import NamedRig
from engine.setup.saved_rigs import add_rig, saved_rigs
from engine.stage.headless import ManualClock
from engine.store import open_history
from tests.engine.commands.command import refused
from tests.engine.pedals.joysticks import FakeJoysticks, Pad

DATE = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)
PEDAL: dict[str, Any] = {
    "device": {"guid": "ab" * 14, "name": "Quiet", "axes": 3, "ordinal": 0, "twins": 1},
    "axis": 0,
    "rest": -1.0,
    "full": 1.0,
}
SET_UP = {"brake": PEDAL, "throttle": PEDAL | {"axis": 1}}


def test_without_a_saved_binding_it_says_how_to_set_up_pedals(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    data, file = tmp_path / "data", tmp_path / "drive.csv"

    line = refused(capsys, "record", str(file), "--data", str(data))

    assert line == (
        f"stillfoot: {data}: expected pedals that were set up, found none: start stillfoot and "
        "set them up first\n"
    )
    assert not data.exists()
    assert not file.exists()


def test_pedals_that_are_not_plugged_in_are_refused(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    with open_history(tmp_path, []) as history:
        add_rig(history, Binding.from_data(SET_UP))
    file = tmp_path / "drive.csv"

    line = refused(capsys, "record", str(file), "--data", str(tmp_path))

    assert line == "stillfoot: pedals: expected Quiet to be plugged in, found them missing\n"
    assert not file.exists()


def test_pedals_that_cannot_be_opened_are_named_with_what_helps() -> None:
    pad = Pad(0.0, 0.0, 0.0, name="Quiet", guid="ab" * 16)
    pad.jam()
    rig = Rig(ManualClock(), Devices(FakeJoysticks(pad), choosing=False))

    with pytest.raises(RecordError) as caught:
        bind_pedals(rig, [NamedRig(1, "", "", Binding.from_data(SET_UP))])

    assert str(caught.value) == (
        "pedals: expected Quiet to be plugged in, found them missing; 1 device could not be opened "
        "(Quiet). Close other programs that use pedals or wheels, then plug in again."
    )


def test_a_drive_belongs_to_the_rig_that_is_plugged_in(tmp_path: Path) -> None:
    there = {**PEDAL, "device": {**PEDAL["device"], "guid": "cd" * 14, "name": "Other"}}
    with open_history(tmp_path, []) as history:
        add_rig(history, Binding.from_data({"brake": there, "throttle": there | {"axis": 1}}))
        add_rig(history, Binding.from_data(SET_UP), "travel")
        assert [saved.number for saved in saved_rigs(history)] == [2, 1]
        rigs = saved_rigs(history)
    pad = Pad(0.0, 0.0, 0.0, name="Other", guid="cd" * 16)
    rig = Rig(ManualClock(), Devices(FakeJoysticks(pad), choosing=False))

    saved = bind_pedals(rig, rigs)
    store_drive(tmp_path, Drive(DATE, "a.csv", "d", 60.0, ()), saved.number)

    assert (saved.number, rig.number) == (1, 1)
    with open_history(tmp_path, []) as history:
        assert [saved.number for saved in saved_rigs(history)] == [1, 2]


def test_unplugging_and_plugging_in_the_pedals_is_told_once_each(tmp_path: Path) -> None:
    said: list[str] = []
    with Journal(tmp_path / "drive.csv", "") as journal:
        look = looking(DriveRecorder(clutch=False, date=lambda: 0), journal, said.append)

        for now, there in enumerate((True, True, False, False, True)):
            look(Sample(now, 0.0, 0.0) if there else None, now)

    assert said == [
        "the pedals are gone: recording goes on when they are back",
        "the pedals are back",
    ]
