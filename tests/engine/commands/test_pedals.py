"""The command `stillfoot pedals`: what it refuses, and the health in a file that it wrote."""

import json
import re
from dataclasses import replace
from pathlib import Path

import pytest

from drills.health.pedal import measure_health
from drills.health.raw_file import written
from engine.commands.main import main
from engine.commands.pedals import health_json
from engine.setup.health_saved import keep_health
from engine.setup.health_table import health_table
from engine.setup.saved_rigs import saved_binding
from engine.store import open_history
from tests.drills.health.virtual import Known, Virtual, read
from tests.engine.commands.command import output_of, refused, save_binding

Captured = pytest.CaptureFixture[str]
NOISY = Virtual(12, 125, noise=1.4)


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """File of raw counts of a noisy virtual set."""
    return file_of(read(NOISY), tmp_path)


def file_of(known: Known, folder: Path) -> Path:
    """File of raw counts."""
    path = folder / "pedals.txt"
    path.write_text(written(known.raw, measure_health(known.raw)), encoding="utf-8")
    return path


def test_without_a_saved_binding_it_says_how_to_set_up_pedals(
    capsys: Captured, tmp_path: Path
) -> None:
    data, new = tmp_path / "data", tmp_path / "new.txt"

    line = refused(capsys, "pedals", "--save", str(new), "--data", str(data))

    assert line == (
        f"stillfoot: {data}: expected pedals that were set up, found none: start stillfoot and "
        "set them up first\n"
    )
    assert not new.exists()
    assert not data.exists()


def test_pedals_that_are_not_plugged_in_are_refused_and_leave_no_file(
    capsys: Captured, tmp_path: Path
) -> None:
    save_binding(tmp_path, clutch=False)
    new = tmp_path / "new.txt"

    line = refused(capsys, "pedals", "--save", str(new), "--data", str(tmp_path))

    assert line == "stillfoot: pedals: expected pedals to be plugged in, found them missing\n"
    assert not new.exists()


def test_a_file_that_is_there_is_not_overwritten(capsys: Captured, tmp_path: Path) -> None:
    save_binding(tmp_path, clutch=False)
    there = tmp_path / "there.txt"
    there.write_text("mine")

    line = refused(capsys, "pedals", "--save", str(there), "--data", str(tmp_path))

    assert line == (f"stillfoot: {there}: expected a new file, found one that is there already\n")
    assert there.read_text() == "mine"


def test_a_file_in_a_missing_folder_is_refused(capsys: Captured, tmp_path: Path) -> None:
    save_binding(tmp_path, clutch=False)
    new = tmp_path / "none" / "new.txt"

    line = refused(capsys, "pedals", "--save", str(new), "--data", str(tmp_path))

    assert line == (
        f"stillfoot: {new}: expected a file to write to, found: No such file or directory\n"
    )


def test_saving_and_replaying_at_once_is_refused(capsys: Captured, file: Path) -> None:
    line = refused(capsys, "pedals", "--replay", str(file), "--save", "new.txt")

    assert line == ("stillfoot: --save: not allowed with --replay (see stillfoot pedals --help)\n")


def test_a_replayed_file_is_told_as_a_table_and_in_words(
    capsys: Captured, file: Path, tmp_path: Path
) -> None:
    text = output_of(capsys, "pedals", "--replay", str(file), "--data", str(tmp_path))

    rows = {line[:27].strip(): line[27:].split() for line in text.splitlines()}
    assert rows["a step, %"] == ["0.028", "0.028"]
    assert rows["reports a second"] == ["125", "125"]
    assert float(rows["noise at rest, points"][0]) == pytest.approx(1.4, rel=0.1)
    assert rows["jumps"] == ["0", "0"]
    assert re.search(r"^Noise 1\.\d points: dips under 7\.\d and wander under", text, re.M)
    assert "levels are partly luck with these pedals; the lists mark them." in text


def test_a_replayed_file_as_json_is_one_object(
    capsys: Captured, file: Path, tmp_path: Path
) -> None:
    text = output_of(capsys, "pedals", "--json", "--replay", str(file), "--data", str(tmp_path))

    data = json.loads(text)
    assert text.count("\n") == 1
    assert set(data) == {"pedals", "dip_least", "time_least", "partly_luck", "says"}
    assert [pedal["pedal"] for pedal in data["pedals"]] == ["brake", "throttle"]
    assert data["pedals"][0]["interval"] == pytest.approx(0.008, rel=0.01)
    assert data["pedals"][0]["held"] == pytest.approx(1.4, rel=0.1)
    assert data["dip_least"] == pytest.approx(7.3, rel=0.1)
    assert "blip-5-still" in data["partly_luck"]
    assert "blip-1-first" not in data["partly_luck"]


def test_stalls_are_counted_in_words_and_as_json(capsys: Captured, tmp_path: Path) -> None:
    stalling = read(Virtual(12, 125, noise=0.05, stall=0.2, let_go=0.2))
    asked = ("pedals", "--replay", str(file_of(stalling, tmp_path)), "--data", str(tmp_path))

    text, data = output_of(capsys, *asked), json.loads(output_of(capsys, *asked, "--json"))

    assert re.search(r"^stalls +4 +4$", text, re.M)
    assert "The brake stopped reporting 4 times: give the pedals a USB port of their own." in text
    assert text.endswith("\nStalls spoil repetitions: see to them first.\n")
    assert "No level asks for more" not in text
    assert "It shows dips" not in text
    assert [pedal["stalls"] for pedal in data["pedals"]] == [4, 4]
    assert data["says"][-1] == "Stalls spoil repetitions: see to them first."


def test_a_pedal_that_did_not_move_is_told_as_not_seen(capsys: Captured, tmp_path: Path) -> None:
    known = read(NOISY)
    known.raw.counts[1] = 0

    text = output_of(capsys, "pedals", "--replay", str(file_of(known, tmp_path)))

    assert "Throttle: not seen yet. It has not moved.\n" in text
    assert "Too little was seen to say what they can show." in text


@pytest.mark.parametrize(
    ("content", "found"),
    [
        (b"", "line 1: expected the first line of a file of stillfoot pedals, found nothing"),
        (
            b"time,brake\n",
            "line 1: expected a JSON object with the format 'stillfoot pedals', found 'time,brake'",
        ),
        (b"\xff\xfa", "expected UTF-8 text, found a byte at 0 that is not UTF-8"),
    ],
)
def test_a_file_of_something_else_is_refused_with_its_line(
    capsys: Captured, tmp_path: Path, content: bytes, found: str
) -> None:
    bad = tmp_path / "bad.txt"
    bad.write_bytes(content)

    assert refused(capsys, "pedals", "--replay", str(bad)) == f"stillfoot: {bad}: {found}\n"


def test_a_damaged_row_is_refused_with_its_line(capsys: Captured, file: Path) -> None:
    lines = file.read_text().splitlines()
    lines[700] = "700,1"
    file.write_text("\n".join(lines))

    assert refused(capsys, "pedals", "--replay", str(file)) == (
        f"stillfoot: {file}: line 701: expected a time and 2 counts, with commas between, "
        "found '700,1'\n"
    )


def test_a_file_that_is_not_there_is_refused(capsys: Captured, tmp_path: Path) -> None:
    none = tmp_path / "none.txt"

    assert refused(capsys, "pedals", "--replay", str(none)) == (
        f"stillfoot: {none}: expected a file that can be read, found: No such file or directory\n"
    )


def test_levels_that_are_partly_luck_are_marked_in_the_list_of_levels(
    capsys: Captured, tmp_path: Path
) -> None:
    save_binding(tmp_path, clutch=False)
    with open_history(tmp_path, []) as history:
        binding = saved_binding(history)
        assert binding is not None
        keep_health(history, binding, measure_health(read(NOISY).raw))

    text = output_of(capsys, "levels", "--data", str(tmp_path))
    main(["levels", "--json", "--data", str(tmp_path)])
    lines = [json.loads(line) for line in capsys.readouterr().out.splitlines()]

    [marked] = [line for line in text.splitlines() if "blip-5-still" in line]
    [unmarked] = [line for line in text.splitlines() if "blip-1-first" in line]
    assert marked.endswith("A still foot (partly luck with these pedals)")
    assert unmarked.endswith("First blip")
    lucky = {line["id"] for line in lines if line["partly_luck"]}
    assert {"blip-5-still"} <= lucky
    assert "blip-1-first" not in lucky


def test_a_remainder_of_reckoning_is_told_as_0() -> None:
    """A steady pedal has a noise of 1e-14 points by the arithmetic alone."""
    healths = tuple(
        replace(one, rest=1.2e-14, held=1.2e-14) for one in measure_health(read(NOISY).raw)
    )

    found = json.loads(health_json(healths, []))

    assert [(pedal["rest"], pedal["held"]) for pedal in found["pedals"]] == [(0.0, 0.0)] * 2
    row = next(line for line in health_table(healths) if line.startswith("noise at rest"))
    assert row.split()[-2:] == ["0", "0"]
