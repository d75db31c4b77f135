"""The command `stillfoot demo --fault` without a window: what every fault makes of a set."""

import json
from contextlib import redirect_stderr, redirect_stdout
from functools import cache
from io import StringIO
from pathlib import Path
from typing import Any

import pytest

from drills.calibration import UNIT
from engine.commands.main import main
from engine.drill.demo import watch
from engine.drill.demonstration import Demonstration
from engine.ladder.level_files import SHIPPED, load_levels
from engine.pedals.faults import FAULTS, Fault, fault_called
from engine.stage.headless import ManualClock
from tests.fakes import Steady, a_stage
from tests.simulated_repetitions import DATE

EACH = pytest.mark.parametrize("fault", FAULTS, ids=[fault.name for fault in FAULTS])
LEVEL = next(level for level in load_levels([SHIPPED]) if level.id == "blip-1-first")


def played(*arguments: str) -> list[dict[str, Any]]:
    """The repetitions of a headless demo, 4 of them unless they end too early."""
    options = ("--reps", "4", "--skill", "0.8", "--seed", "7", *arguments)
    with redirect_stdout(StringIO()) as out, redirect_stderr(StringIO()) as err:
        code = main(["demo", "--headless", "--json", *options])
    assert (code, err.getvalue()) == (0, "")
    return [json.loads(line) for line in out.getvalue().splitlines()]


played_once = cache(played)
"""The repetitions of such a demo, played once for all tests that look at them."""


@EACH
def test_a_demo_of_every_fault_ends_well_and_differs_from_one_without(
    fault: Fault,
) -> None:
    first = played_once("--fault", fault.name)

    assert first == played("--fault", fault.name)
    assert first != played_once()
    assert first[-1]["rep"] == 4 or all(line["score"] is None for line in first[-10:])


@EACH
def test_the_text_of_a_demo_has_a_sentence_for_each_repetition(
    capsys: pytest.CaptureFixture[str], fault: Fault
) -> None:
    code = main(["demo", "--headless", "--reps", "2", "--fault", fault.name])

    out, err = capsys.readouterr()
    assert (code, err) == (0, "")
    assert all(line.endswith(".") for line in out.splitlines())
    assert out


def test_an_unplugged_device_is_told_and_the_set_goes_on() -> None:
    lines = played_once("--fault", "unplugged")

    reasons = [line["reason"] for line in lines]
    assert reasons.count("unplugged") == len(lines) - 4 > 0
    assert [line["rep"] for line in lines if line["score"] is not None] == [1, 2, 3, 4]


def test_a_coarse_device_shows_its_step() -> None:
    lines = played_once("--fault", "coarse")

    steps = [line["resolution"] for line in lines]
    assert steps == pytest.approx([100 / 31] * len(lines), rel=0.01)


def test_an_axis_that_ends_too_early_shows_in_the_base() -> None:
    lines = played_once("--fault", "saturating", "--level", "still-2-firm")

    means = [line["mean"] for line in lines if line["target"] == 60 and "mean" in line]
    assert means
    assert means == pytest.approx([55.0] * len(means), abs=0.5)


def test_an_unknown_fault_is_refused_with_a_list_of_them(
    capsys: pytest.CaptureFixture[str],
) -> None:
    code = main(["demo", "--fault", "rusty"])

    out, err = capsys.readouterr()
    names = ", ".join(fault.name for fault in FAULTS)
    assert (code, out) == (2, "")
    assert err == (
        f"stillfoot: --fault: expected one of {names}, found 'rusty' (see stillfoot demo --help)\n"
    )


def test_the_help_lists_every_fault(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["demo", "--help"]) == 0

    words = " ".join(capsys.readouterr().out.split())
    assert all(f"{fault.name}: {fault.about}" in words for fault in FAULTS)


@pytest.mark.parametrize("stored", [False, True])
@pytest.mark.parametrize("name", ["", "stalling"])
def test_every_screen_says_which_fault_a_demo_shows(
    name: str, stored: bool, tmp_path: Path
) -> None:
    folder = tmp_path if stored else None
    demonstration = Demonstration(LEVEL, 1, 7, 0.8, folder, fault=fault_called(name))

    with demonstration.history() as history:
        scene = next(watch(demonstration, ManualClock(), a_stage(), history, lambda: DATE))

    demo = "Demo of faulty pedals (stalling)" if name else "Demo"
    kept = "nothing of it counts" if stored else "nothing is saved"
    assert scene.rig.means.label == f"{demo}: {kept}"


@EACH
def test_a_fault_can_be_put_around_another_one(fault: Fault) -> None:
    clock = ManualClock()
    inner = fault.around(Steady(clock, 0.6), UNIT, 1)

    outer = fault.around(inner, UNIT, 2)

    assert outer.read() is not None
    assert (outer.name, outer.is_feet) == ("steady", True)
