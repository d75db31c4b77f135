"""A program that is killed while it stores repetitions loses at most the one under way."""

import subprocess
import sys
from pathlib import Path

import pytest

from engine.five.saved import session_under_way
from engine.practice.results import SessionKind
from engine.store import open_history
from engine.store.repetitions import add_repetition, measures_of
from engine.store.traces import trace_of
from tests.made import on_grid, record
from tests.stored import all_results

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.parametrize("after", [1, 7, 30])
def test_a_kill_while_adding_loses_at_most_the_one_under_way(tmp_path: Path, after: int) -> None:
    command = [sys.executable, "-m", "tests.store.adder", str(tmp_path)]
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True) as child:
        assert child.stdout is not None
        printed = [child.stdout.readline() for _ in range(after)]
        child.kill()
        printed += child.stdout.readlines()

    wanted = record()
    with open_history(tmp_path, []) as history:
        stored = len(all_results(history))
        traces = [trace_of(history, int(number)) for number in printed]
        measures = [measures_of(history, int(number)) for number in printed]
        following = add_repetition(history, record())
        session = session_under_way(history, SessionKind.FIVE, wanted.at.date())

    assert wanted.trace is not None
    assert [int(number) for number in printed] == list(range(1, len(printed) + 1))
    assert len(printed) <= stored <= len(printed) + 1
    assert traces == [on_grid(wanted.trace)] * len(printed)
    assert measures == [dict(wanted.verdict.measures)] * len(printed)
    assert following == stored + 1
    assert session is not None
    assert session.left == 300 - 2.5 * stored
