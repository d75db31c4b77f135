"""The commands `stillfoot export` and `stillfoot import`: the history as CSV, and back."""

from __future__ import annotations

import argparse
import sys
import time
from pathlib import Path

from engine.commands.options import data_folder, path_of
from engine.commands.progress_line import ProgressLine
from engine.console import say
from engine.ladder.level_files import OWN, SHIPPED, load_levels
from engine.store import History, StoreError
from engine.store.cores import all_cores
from engine.store.csv_in import import_history
from engine.store.history import FILE, is_new


def add_export(parser: argparse.ArgumentParser) -> None:
    """Give the options of `export` to a parser."""
    folder = path_of("a folder")
    parser.add_argument("folder", metavar="DIR", type=folder, help="a new or an empty folder")


def add_import(parser: argparse.ArgumentParser) -> None:
    """Give the options of `import` to a parser."""
    folder = path_of("a folder")
    parser.add_argument("folder", metavar="DIR", type=folder, help="a folder that export has made")


def run_export(options: argparse.Namespace) -> int:
    """Write the history out; the exit code. Raises Refusal."""
    with old_history(data_folder(options)) as history, progress("Writing") as line:
        count = history.export(options.folder, all_cores, line.tell)
    say(f"{repetitions(count)} written to {options.folder}\n")
    return 0


def run_import(options: argparse.Namespace) -> int:
    """Make a history out of what export wrote; the exit code. Raises Refusal."""
    folder = data_folder(options)
    with progress("Reading") as line:
        count = import_history(folder, options.folder, all_cores, line.tell)
    say(f"{repetitions(count)} put into {folder}\n")
    return 0


def old_history(folder: Path) -> History:
    """The history of a data folder. Raises StoreError where it has none, and makes none."""
    if is_new(folder):
        raise StoreError(f"{folder / FILE}: expected a history, found none")
    levels = load_levels([SHIPPED, folder / OWN])
    return History(folder, {level.id: level.rule for level in levels})


def progress(what: str) -> ProgressLine:
    """A line on standard error that says how far work has come."""
    return ProgressLine(what, sys.stderr, time.monotonic)


def repetitions(count: int) -> str:
    """How many repetitions, for a person."""
    return "1 repetition" if count == 1 else f"{count:,} repetitions"
