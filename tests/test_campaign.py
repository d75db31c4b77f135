"""The campaign against the history and the program: its fastest attempts lose nothing."""

import subprocess
import sys
from pathlib import Path

from tests.bench.attempts.attempt import Part, Tally, lost, tally, wrong
from tests.bench.attempts.table import lines
from tests.needs import file_size_limit

ROOT = Path(__file__).resolve().parents[1]
FAST = ("writes", "fuzz", "disturbed")
"""Parts whose short form takes some seconds in all."""


@file_size_limit
def test_a_short_campaign_loses_nothing_and_ends_well() -> None:
    command = [sys.executable, str(ROOT / "tests" / "bench" / "campaign.py"), "--short", *FAST]

    ended = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)

    assert (ended.returncode, ended.stderr) == (0, ""), ended.stdout


def test_an_attempt_is_counted_once_by_the_worst_that_it_found() -> None:
    found = Tally("a part")

    found.add(0, [])
    found.add(1, [wrong("late")])
    found.add(2, [wrong("late"), lost("a row")])

    assert (found.tried, found.survived, found.lost, found.wrong) == (3, 1, 1, 1)


def test_findings_that_differ_in_numbers_are_told_as_one_with_the_attempts_to_repeat() -> None:
    found = Tally("a part")

    for number in range(5):
        found.add(number, [wrong(f"row {number}: found '{number}'")])

    assert list(lines(found)) == ["wrong 5 x: row 0: found '0' (--only 0, 1, 2, ...)"]


def test_an_attempt_that_fails_itself_is_wrong_and_says_where() -> None:
    def attempt(_number: int, _folder: Path) -> list[object]:
        raise ValueError("no reason")

    found = tally(Part("a part", attempt, 1), [0])  # type: ignore[arg-type]

    assert list(lines(found)) == [
        "wrong 1 x: not tried to the end: ValueError at tests/test_campaign.py, attempt: no reason "
        "(--only 0)"
    ]
