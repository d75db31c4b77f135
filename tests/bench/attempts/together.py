"""Two and four programs on one history: playing, copying, remeasuring, restoring, reading.

All that was printed or reported as stored is there, the history is whole, and whoever must wait for
another says so in one line.
"""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

from engine.store.history import FILE
from tests.bench.attempts import histories
from tests.bench.attempts.attempt import Finding, drawn, lost, wrong
from tests.bench.attempts.command import REFUSED, Ended, end, faults, start
from tests.bench.attempts.reader import facts_in, facts_of, is_whole

PLAY = "demo --headless --json --reps 8"
"""A set that prints a line for each repetition that is stored."""
OTHERS = (
    *(PLAY, "backup NEW/copy.sqlite3", "remeasure", "restore BACKUP", "report", "plan"),
    *("export NEW/csv", "score DRIVE --keep"),
)
"""What another copy of the program does meanwhile."""
IN_USE = "in use by another stillfoot"
"""Words of the refusal of whoever waited for another in vain."""


def together(number: int, folder: Path) -> Iterator[Finding]:
    """Start two or four programs at once on one history."""
    rng, data, usual = drawn("together", number), folder / "data", histories.usual()
    before = facts_of(histories.copied(histories.long(), data))
    lines = [PLAY] + [rng.choice(OTHERS) for _ in range((1, 3)[number % 2])]
    programs = [
        start(*histories.filled(line, folder / f"{place}", usual), "--data", str(data))
        for place, line in enumerate(lines)
    ]
    ends = [end(program) for program in programs]
    restores = any(line.startswith("restore") for line in lines)
    for ended in ends:
        yield from faults(ended)
        if ended.code == REFUSED and not (IN_USE in ended.err and restores):
            yield wrong(f"{ended.name}: refused beside {', '.join(lines)}: {ended.err}")
    if not is_whole(data / FILE):
        yield lost(f"the history is damaged by {', '.join(lines)}")
        return
    if not before <= facts_in(data):
        yield lost("what was in the history before")
    printed = sum(map(_repetitions, ends))
    stored = max(map(_played, [data / FILE, *data.glob("history-before-restore*")]))
    if not restores and stored != printed:
        yield lost(f"{printed - stored} of {printed} repetitions that were printed as stored")
    for copy in folder.glob("*/copy.sqlite3"):
        if not (is_whole(copy) and before <= facts_of(copy)):
            yield lost("a copy that was made meanwhile is not whole")


def _repetitions(ended: Ended) -> int:
    """Number of repetitions that a program printed."""
    return sum(line.startswith('{"rep"') for line in ended.out.splitlines())


def _played(file: Path) -> int:
    """Number of simulated repetitions in a history, which none of the histories begins with."""
    with closing(sqlite3.connect(file)) as db:
        found = db.execute("SELECT count(*) FROM repetition WHERE source = 'simulated'").fetchone()
        return int(found[0])
