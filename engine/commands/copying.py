"""The commands `stillfoot backup`, `restore` and `export`: copies of the history."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from datetime import date
from pathlib import Path

from drills.level import Level
from engine.commands.copy_list import copy_list
from engine.commands.data import all_levels, read_data, repetitions
from engine.commands.options import UsageError, data_folder, local_now, path_of, quoted
from engine.commands.progress_line import progress
from engine.console import say, warn
from engine.salvage.salvage import salvage
from engine.salvage.words import lost_words
from engine.store.backup import back_up, restore
from engine.store.copies import automatic_copies
from engine.store.error import DamagedError, StoreError
from engine.store.export import export
from engine.store.history import FILE
from engine.store.reading import open_for_reading
from engine.store.repetitions import newest_number
from engine.store.temporary import temporary_folder


def add_backup(parser: argparse.ArgumentParser) -> None:
    """Add the options of `backup` to a parser."""
    parser.add_argument(
        "file", metavar="FILE", nargs="?", type=path_of("a file"), help="new file for the copy"
    )
    parser.add_argument("--list", action="store_true", help="list the daily copies of the game")


def add_restore(parser: argparse.ArgumentParser) -> None:
    """Add the options of `restore` to a parser."""
    parser.add_argument(
        "file",
        metavar="FILE",
        type=path_of("a file or a date"),
        help="a backup, or the date of a copy in backup --list",
    )


def add_export(parser: argparse.ArgumentParser) -> None:
    """Add the options of `export` to a parser."""
    folder = path_of("a folder")
    parser.add_argument("folder", metavar="DIR", type=folder, help="new or empty folder")
    parser.add_argument(
        "--traces", action="store_true", help="write the traces too, compressed with gzip"
    )


def run_backup(options: argparse.Namespace) -> int:
    """Copy the history to a file, or list its copies; return the exit code. Raises Refusal."""
    if options.list and options.file is not None:
        raise UsageError(f"--list: expected no FILE beside it, found {quoted(str(options.file))}")
    if options.list:
        say(copy_list(data_folder(options), local_now().date()))
        return 0
    if options.file is None:
        raise UsageError("expected FILE or --list, found neither (see stillfoot backup --help)")
    folder = data_folder(options)
    read_data(folder, all_levels(folder), lambda history: back_up(history, options.file))
    say(f"The history is copied to {options.file}\n")
    return 0


def run_restore(options: argparse.Namespace) -> int:
    """Replace the history by a backup; return the exit code. Raises Refusal."""
    folder = data_folder(options)
    file = _file_or_copy(options.file, folder)
    levels = all_levels(folder)
    try:
        aside = restore(file, folder, levels)
    except DamagedError as error:
        aside = _restore_rest(file, folder, levels, error)
    say(f"The history of {file} is now {folder / FILE}\n")
    if aside is not None:
        say(f"The old history is now {aside}\n")
    return 0


def run_export(options: argparse.Namespace) -> int:
    """Write the history as CSV; return the exit code. Raises Refusal."""
    folder = data_folder(options)
    with progress("Writing") as line:
        done = read_data(
            folder,
            all_levels(folder),
            lambda history: export(history, options.folder, line.tell, traces=options.traces),
        )
    if done.unreadable:
        warn(unreadable_words(done.unreadable))
    say(f"{repetitions(done.repetitions)} written to {options.folder}\n")
    return 0


def _restore_rest(
    file: Path, folder: Path, levels: Sequence[Level], damage: DamagedError
) -> Path | None:
    """Replace the history by what can be read of a damaged backup, and say what cannot.

    Returns where the old one went, if there was one. Raises StoreError; `damage`, if nothing can
    be read.
    """
    with temporary_folder() as folder_of_rest:
        rest = folder_of_rest / FILE
        loss = salvage(file, rest, levels)
        with open_for_reading(rest.parent, levels) as history:
            if newest_number(history) == 0:
                raise damage
        aside = restore(rest, folder, levels)
    warn(f"{damage}; what can be read is restored")
    for line in lost_words(loss, local_now().date()):
        warn(line)
    return aside


def unreadable_words(numbers: Sequence[int]) -> str:
    """Sentence on the repetitions with these numbers, whose damaged traces are left out."""
    if len(numbers) == 1:
        return f"the trace of repetition {numbers[0]} cannot be read and is left out"
    return (
        f"the traces of {repetitions(len(numbers))} cannot be read and are left out: "
        f"from number {numbers[0]} on"
    )


def _file_or_copy(given: Path, folder: Path) -> Path:
    """File that was given, or the automatic copy of the date that was given in its place.

    Raises StoreError if there is no such copy.
    """
    try:
        day = date.fromisoformat(str(given))
    except ValueError:
        return given
    if given.exists():
        return given
    copies = {copy.day: copy.path for copy in automatic_copies(folder)}
    if day in copies:
        return copies[day]
    dates = ", ".join(one.isoformat() for one in copies) or "there are none"
    raise StoreError(f"{given}: expected a file, or the date of a copy ({dates}), found neither")
