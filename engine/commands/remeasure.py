"""The command `stillfoot remeasure`: computes the measures of every stored trace once more."""

from __future__ import annotations

import argparse
from collections import Counter
from collections.abc import Generator, Iterable
from contextlib import closing
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

from drills.measures.catalogue import CATALOGUE
from drills.remeasure import Remeasurer, Unmeasured, differing
from engine.commands.cores import Cores, Tell, all_cores
from engine.commands.data import all_levels, change_data, read_data, refuse_new, repetitions
from engine.commands.options import data_folder, local_now
from engine.commands.progress_line import progress
from engine.console import say
from engine.ladder.level_files import load_band
from engine.store import History
from engine.store.backup import back_up
from engine.store.history import FILE
from engine.store.remeasure import (
    Replacement,
    copy_before,
    is_copied,
    read_stored,
    remeasuring,
    replace_measures,
    replacement,
)
from engine.store.repetitions import newest_number
from engine.store.temporary import temporary_folder

PIECE = 250
"""Number of repetitions in one job of remeasuring, which takes a core some seconds."""


@dataclass(frozen=True)
class Piece:
    """One job of remeasuring: consecutive repetitions, PIECE of them at most."""

    file: Path
    """History file to remeasure."""
    folder: Path
    """Data folder with the player's own levels."""
    first: int
    """Number in the history of the job's first repetition."""


@dataclass
class Remeasured:
    """Counts of what remeasuring repetitions found."""

    measured: int = 0
    """Number of repetitions that were remeasured."""
    left_out: Counter[Unmeasured] = field(default_factory=Counter)
    """Number of repetitions that could not be remeasured, by the reason."""
    other: int = 0
    """Number of repetitions of which a stored measure differs from the one computed."""
    differing: Counter[str] = field(default_factory=Counter)
    """Number of stored values that differ from those computed, by the name of the measure."""
    most: dict[str, float] = field(default_factory=dict)
    """Largest difference of stored and computed value, by the name of the measure, in its unit."""

    def add(self, more: Remeasured) -> None:
        """Add the counts of other repetitions."""
        self.measured += more.measured
        self.left_out += more.left_out
        self.other += more.other
        self.differing += more.differing
        for name, by in more.most.items():
            self.most[name] = max(by, self.most.get(name, 0.0))


def add_remeasure(parser: argparse.ArgumentParser) -> None:
    """Add the options of `remeasure` to a parser."""
    parser.add_argument(
        "--dry-run", action="store_true", help="say what would change, but change nothing"
    )


def run_remeasure(options: argparse.Namespace) -> int:
    """Remeasure the history and print what differs; return the exit code. Raises Refusal."""
    folder = data_folder(options)
    refuse_new(folder)
    if options.dry_run:
        found = read_data(folder, all_levels(folder), lambda history: _tried(history, folder))
        say(as_text(found, dry_run=True))
        return 0
    found, copy = change_data(folder, lambda history: _remeasured(history, folder))
    say(as_text(found, dry_run=False))
    if copy is not None:
        say(f"A copy from before is {copy}\n")
    return 0


def _tried(history: History, folder: Path) -> Remeasured:
    """Counts of what remeasuring a history would find; it is a copy that is looked at.

    Raises StoreError.
    """
    found = Remeasured()
    with temporary_folder() as place, progress("Measuring") as line:
        copy = place / FILE
        back_up(history, copy)
        for _ in remeasure(copy, folder, newest_number(history), found, all_cores, line.tell):
            pass
    return found


def _remeasured(history: History, folder: Path) -> tuple[Remeasured, Path | None]:
    """Remeasure a history; returns what was found, and the path of a copy made before.

    Raises StoreError.
    """
    found, copy = Remeasured(), None
    with progress("Measuring") as line:
        if remeasuring(history) and not is_copied(history):
            copy = copy_before(history, local_now().date(), lambda: None)
        newest = newest_number(history)
        results = remeasure(history.path, folder, newest, found, all_cores, line.tell)
        with closing(results):
            replace_measures(history, results)
    return found, copy


def remeasure(
    file: Path, folder: Path, newest: int, found: Remeasured, cores: Cores, tell: Tell
) -> Generator[Replacement, None, None]:
    """Remeasure repetitions up to the newest; yield what changes about them, and add to `found`.

    `file` is the history, `folder` the data folder with the player's own levels. Raises
    sqlite3.Error.
    """
    firsts = range(1, newest + 1, PIECE)
    pieces = (Piece(file, folder, first) for first in firsts)
    with closing(cores(len(firsts))(measure_piece, pieces)) as done:
        for number, (more, replacements) in enumerate(done, start=1):
            found.add(more)
            yield from replacements
            tell(number, len(firsts))


def measure_piece(piece: Piece) -> tuple[Remeasured, list[Replacement]]:
    """Remeasure the repetitions of one job; return the counts, and what changes about them.

    Raises sqlite3.Error.
    """
    found, replacements = Remeasured(), []
    remeasurer = _remeasurer(piece.folder)
    last = piece.first + PIECE - 1
    for number, one in read_stored(piece.file, piece.first, last):
        if one is None:
            found.left_out[Unmeasured.UNREADABLE] += 1
            replacements.append(Replacement(number, None, fixed=True))
            continue
        now = remeasurer.measure(one)
        changes = replacement(one, now)
        if changes is not None:
            replacements.append(changes)
        if isinstance(now, Unmeasured):
            found.left_out[now] += 1
            continue
        found.measured += 1
        names = list(differing(one.measures, now))
        if names:
            found.other += 1
        found.differing.update(names)
        for name in names:
            before, after = one.measures.get(name), now.get(name)
            if before is not None and after is not None:
                found.most[name] = max(found.most.get(name, 0.0), abs(after - before))
    return found, replacements


def as_text(found: Remeasured, dry_run: bool) -> str:
    """Text with the counts of remeasuring."""
    lines = [f"{repetitions(found.measured)} measured again"]
    lines += [f"{count:8,}  not measured: {why}" for why, count in found.left_out.most_common()]
    if not found.differing:
        lines.append("No measure has changed.")
        return _lines(lines)
    values = found.differing.total()
    lines.append(
        f"{values:,} {'value differs' if values == 1 else 'values differ'}, "
        f"in {repetitions(found.other)}"
    )
    lines += [
        f"{count:8,}  {name}{_by(name, found.most.get(name))}"
        for name, count in found.differing.most_common()
    ]
    saved = "Nothing was changed." if dry_run else "The new measures are saved."
    lines.append(f"{saved} Verdicts, scores and passes stay as they were.")
    return _lines(lines)


def _by(name: str, most: float | None) -> str:
    """Text for the largest difference of a measure; `most` is None where no two numbers differ."""
    if most is None:
        return ", missing before or now"
    unit = CATALOGUE[name].unit if name in CATALOGUE else ""
    return f", by {most:.3g} {unit}".rstrip() + " at most"


def _lines(lines: Iterable[str]) -> str:
    return "".join(f"{line}\n" for line in lines)


@cache
def _remeasurer(folder: Path) -> Remeasurer:
    """Remeasurer for the levels of a data folder, made only once in each process."""
    return Remeasurer([*all_levels(folder), load_band()])
