"""Damaged history files, each through every command and through a start of the game.

Nothing ends in a traceback, or refuses as long as a repetition can be read; what SQLite alone can
read of the damaged file is there afterwards, in the history or in a file set aside; and a history
that is set aside is named.
"""

import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from engine.store.history import FILE
from engine.store.lock import LOCK
from tests.bench.attempts import histories
from tests.bench.attempts.attempt import Finding, drawn, lost, wrong
from tests.bench.attempts.command import REFUSED, Ended, call, faults, run
from tests.bench.attempts.damaging import WAYS, Damage
from tests.bench.attempts.game import opened
from tests.bench.attempts.reader import Fact, facts_in, facts_of, repetitions

IN_PROCESS = 20
"""Of so many damaged files one goes through processes of their own."""
LEAST = 100
"""Bytes of a file's header: a shorter one holds nothing that could be lost."""
IN_WINDOW = 10
"""Of so many damaged files one goes to a real window."""


@dataclass(frozen=True)
class Way:
    """Command that is tried on damaged files."""

    words: str
    """Command line: FOLDER is the data folder, NEW a place for new files, BACKUP a good backup."""
    without_pedals: bool = True
    """Whether it works on a computer without pedals."""
    writes: bool = False
    """Whether it opens the history to write to it, and so is to carry over what can be read."""


COMMANDS = (
    Way("plan"),
    Way("report --html NEW/a.html --png NEW/a.png"),
    Way("levels"),
    Way("export NEW/csv"),
    Way("export NEW/csv --traces"),
    Way("pedals", without_pedals=False),
    Way("pedals --json --replay HEALTH"),
    Way("backup NEW/backup.sqlite3"),
    Way("restore BACKUP"),
    Way("remeasure --dry-run"),
    Way("remeasure", writes=True),
    Way("demo --headless --reps 1", writes=True),
    Way("score DRIVE --keep", writes=True),
    Way("record NEW/drive.csv", without_pedals=False),
)
"""Every command that a history can be given to."""


def damaged(number: int, folder: Path) -> Iterator[Finding]:
    """Damage a history, then give a copy of it to each command and to the game."""
    way = WAYS[number % len(WAYS)]
    file = histories.copied(histories.usual(), folder / "damaged")
    way.do(file, drawn("damage", number), number // len(WAYS))
    for finding in _tried(way, number, file, folder):
        yield Finding(finding.fault, f"{way.name}: {finding.what}")


def _tried(way: Damage, number: int, file: Path, folder: Path) -> Iterator[Finding]:
    """Findings of everything that is tried on a damaged file."""
    readable = facts_of(file) & facts_of(histories.usual())
    for place, command in enumerate(COMMANDS):
        ended = _given(
            command, file, folder / f"{place}", apart=number % IN_PROCESS == IN_PROCESS - 1
        )
        may_refuse = not command.without_pedals or not (way.in_cell or repetitions(readable))
        yield from faults(ended, allowed=(0, REFUSED) if may_refuse else (0,))
        yield from changes(ended, file, folder / f"{place}", readable, writes=command.writes)
    yield from _restored(file, folder / "restored")
    game = folder / "game"
    histories.copied(file, game)
    ended = opened(game, in_window=number % IN_WINDOW == IN_WINDOW - 1)
    yield from faults(ended, allowed=(0,))
    yield from changes(ended, file, game, readable, writes=True)


def _given(command: Way, file: Path, data: Path, *, apart: bool) -> Ended:
    """Give a copy of a damaged file to a command, in this process or `apart`; how it ended."""
    histories.copied(file, data)
    words = histories.filled(command.words, data / "new", histories.usual())
    return (run if apart else call)(*words, "--data", str(data))


def changes(
    ended: Ended, file: Path, data: Path, readable: set[Fact], *, writes: bool
) -> Iterator[Finding]:
    """What is wrong with what a command made of a damaged file: nothing lost, and all said.

    `writes`: the command opened the history to write to it, and so carries over all of it.
    """
    before, history = file.read_bytes(), data / FILE
    there = history.read_bytes() if history.exists() else b""
    others = [one for one in data.iterdir() if one.is_file() and one.name not in (FILE, LOCK)]
    asides = [one for one in others if one.read_bytes() == before]
    gone = readable - facts_in(data)
    if gone:
        yield lost(f"{ended.name}: {len(gone)} rows that can be read are in no file")
    elif not readable and len(before) > LEAST and there != before and not asides:
        yield lost(f"{ended.name}: the damaged file is gone")
    if ended.code != 0 or there == before:
        return
    left = repetitions(readable) - repetitions(facts_of(history))
    if writes and left:
        yield lost(f"{ended.name}: {len(left)} repetitions that can be read are not carried over")
    if len(repetitions(facts_of(history))) < len(repetitions(facts_of(histories.usual()))):
        if not asides:
            # Damage where the command did not look leaves all that can be read in its place.
            if left or not readable:
                yield wrong(f"{ended.name}: a silent new history")
        elif not any(one.name in ended.said for one in asides):
            yield wrong(f"{ended.name}: sets the history aside without a word")


def _restored(file: Path, data: Path) -> Iterator[Finding]:
    """Findings of a restore from the damaged file: refused or whole, and no history is lost."""
    histories.copied(histories.usual(), data)
    before = facts_of(data / FILE)
    backup = shutil.copy(file, data.with_name("backup.sqlite3"))
    ended = call("restore", str(backup), "--data", str(data))
    yield from faults(ended)
    if not before <= facts_in(data):
        yield lost("restore of a damaged backup: the history before is gone")
    if ended.code == REFUSED and facts_of(data / FILE) != before:
        yield wrong("restore refuses a damaged backup and changes the history")
