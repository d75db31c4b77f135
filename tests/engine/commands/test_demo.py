"""The command `stillfoot demo` without a window."""

import json
import math
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from drills.level import Level
from drills.score import Reason, Verdict
from engine.commands.demo import repetition_json, repetition_text
from engine.commands.main import main
from engine.drill.demo import watch
from engine.drill.demonstration import Demonstration
from engine.ladder.level_files import SHIPPED, load_levels
from engine.stage.headless import ManualClock, run_headless
from engine.store import Record, open_history
from engine.store.repetitions import measures_of
from tests.fakes import Audience, a_stage
from tests.made import record
from tests.stored import all_results

DATE = datetime(2024, 5, 17, tzinfo=UTC)
COMMON = {"rep", "level", "kind", "target", "score", "clean", "reason", "over"}
SAMPLING = {"rate", "gap_p99", "gap_max", "resolution", "report_interval"}
HELD = {
    *("mean", "constant_error", "variable_error", "total_error"),
    *("cv", "swing", "in_band", "drift", "tremor"),
}
PULSE = {"onset", "end", "peak", "width", "rise", "fall", "reaction"}
DISTURBANCE = {
    *("base", "dip", "dip_at", "rebound", "surge", "swing", "settle", "shortfall", "excess"),
    *("coupling", "lag", "extra_distance", "mean_dip", "offset", "surge_at", "base_error"),
    *("lead", "dip_at_50"),
}


@pytest.fixture(scope="module")
def levels() -> dict[str, Level]:
    """The levels that ship with the game, by id."""
    return {level.id: level for level in load_levels([SHIPPED])}


def output_of(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    """Output of the demo as JSON."""
    code = main(["demo", "--headless", "--json", *arguments])
    out, err = capsys.readouterr()
    assert (code, err) == (0, "")
    return out


def played(level: Level, skill: float, folder: Path, count: int) -> list[Record]:
    """Records of a level played by a foot of some skill that count."""
    clock, audience = ManualClock(), Audience()
    demonstration = Demonstration(level, count, 7, skill, folder)
    with demonstration.history() as history:
        stage = a_stage(audience)
        run_headless(watch(demonstration, clock, stage, history, lambda: DATE), clock)
    records = [record for _, record in audience.records]
    return [record for record in records if not record.verdict.void]


def test_the_same_seed_writes_the_same_bytes(capsys: pytest.CaptureFixture[str]) -> None:
    first = output_of(capsys, "--reps", "3", "--seed", "11")

    again = output_of(capsys, "--reps", "3", "--seed", "11")

    assert again == first


def test_another_seed_writes_something_else(capsys: pytest.CaptureFixture[str]) -> None:
    first = output_of(capsys, "--reps", "1", "--seed", "11")

    other = output_of(capsys, "--reps", "1", "--seed", "12")

    assert other != first


@pytest.mark.parametrize(
    ("level", "measures"), [("still-1-light", HELD), ("blip-1-first", PULSE | DISTURBANCE)]
)
def test_every_line_names_every_measure_of_its_drill(
    capsys: pytest.CaptureFixture[str], level: str, measures: set[str]
) -> None:
    lines = output_of(capsys, "--level", level, "--reps", "2", "--skill", "0.8").splitlines()

    records = [json.loads(line) for line in lines]

    assert [set(line) for line in records] == [COMMON | measures | SAMPLING] * 2
    assert [line["rep"] for line in records] == [1, 2]
    assert {line["level"] for line in records} == {level}


def test_a_set_is_as_long_as_the_level_says_and_takes_its_targets_in_turn(
    capsys: pytest.CaptureFixture[str], levels: dict[str, Level]
) -> None:
    lines = output_of(capsys, "--level", "blip-3-good", "--skill", "0.9").splitlines()

    targets = [json.loads(line)["target"] for line in lines]

    assert len(targets) == levels["blip-3-good"].repetitions
    assert targets[:4] == [65.0, 50.0, 75.0, 65.0]


@pytest.mark.parametrize("level", ["blip-2-closer", "still-3-dark"])
def test_a_more_skilled_foot_has_more_clean_ones(
    levels: dict[str, Level], tmp_path: Path, level: str
) -> None:
    shares = []

    for skill in (0.0, 1.0):
        records = played(levels[level], skill, tmp_path / str(skill), 8)
        shares.append(sum(record.verdict.clean for record in records) / 8)

    assert shares[1] >= max(0.9, shares[0] + 0.25)


def test_each_record_is_stored_before_it_is_announced(
    levels: dict[str, Level], tmp_path: Path
) -> None:
    class Reader(Audience):
        """Listener that reads the history whenever a record is announced."""

        def on_record(self, place: int, record: Record) -> None:
            """Store the newest score and measures in the history."""
            super().on_record(place, record)
            with open_history(tmp_path, []) as other:
                seen.append((all_results(other)[-1].score, measures_of(other, len(seen) + 1)))

    seen: list[tuple[float | None, dict[str, float | None]]] = []
    reader, clock = Reader(), ManualClock()
    demonstration = Demonstration(levels["blip-1-first"], 3, 5, 0.5, tmp_path)

    with demonstration.history() as history:
        run_headless(watch(demonstration, clock, a_stage(reader), history, lambda: DATE), clock)

    verdicts = [record.verdict for _, record in reader.records]
    assert seen == [(verdict.score, dict(verdict.measures)) for verdict in verdicts]
    assert {record.source for _, record in reader.records} == {"simulated"}


def test_a_demo_with_a_data_folder_is_stored_there(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    output_of(capsys, "--reps", "2", "--data", str(tmp_path))
    output_of(capsys, "--reps", "1", "--data", str(tmp_path))

    with open_history(tmp_path, []) as history:
        results = all_results(history)

    assert [result.level for result in results] == ["blip-1-first"] * 3


def test_a_line_of_text_is_number_score_reason_and_what_the_reveal_says(
    levels: dict[str, Level], tmp_path: Path
) -> None:
    level = levels["blip-1-first"]
    record = played(level, 0.5, tmp_path, 1)[0]

    line = repetition_text(level, 1, record)

    score = math.floor(record.verdict.score or 0.0)
    said = level.kind.remark(level, record.verdict).sentence()
    assert said.startswith("The brake ")
    assert line.startswith(f"  1  {score:4d}  clean        {said}")


def test_a_last_digit_that_differs_between_systems_is_not_printed(levels: dict[str, Level]) -> None:
    verdict = Verdict(Reason.CLEAN, 90.0, (), {"tremor": 0.11832794814037798, "dip_at": None})
    other = {"tremor": math.nextafter(0.11832794814037798, 1), "dip_at": None}
    level = levels["still-1-light"]

    line, elsewhere = (
        repetition_json(level, 1, record(verdict=replace(verdict, measures=measures)))
        for measures in (verdict.measures, other)
    )

    assert line == elsewhere
    assert json.loads(line)["tremor"] == 0.118327948140


def test_the_events_file_has_each_phase_and_verdict(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    log = tmp_path / "events.jsonl"

    written = output_of(capsys, "--reps", "2", "--events", str(log))

    events = [json.loads(line) for line in log.read_text(encoding="utf-8").splitlines()]
    verdicts = [event for event in events if event["event"] == "verdict"]
    scores = [json.loads(line)["score"] for line in written.splitlines()]
    assert [event["score"] for event in verdicts] == pytest.approx(scores, rel=1e-11)
    phases = [event["phase"] for event in events if event["event"] == "phase"]
    assert phases.count("done") == 2
    assert [event["t"] for event in events] == sorted(event["t"] for event in events)
