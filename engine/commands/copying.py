"""The commands `stillfoot backup`, `restore` and `export`: copies of the history."""

from __future__ import annotations

import argparse

from engine.commands.data import all_levels, open_existing, repetitions
from engine.commands.options import data_folder, path_of
from engine.commands.progress_line import progress
from engine.console import say
from engine.store.backup import back_up, restore
from engine.store.export import export
from engine.store.history import FILE


def add_backup(parser: argparse.ArgumentParser) -> None:
    """Add the options of `backup` to a parser."""
    parser.add_argument("file", metavar="FILE", type=path_of("a file"), help="a new file")


def add_restore(parser: argparse.ArgumentParser) -> None:
    """Add the options of `restore` to a parser."""
    parser.add_argument(
        "file", metavar="FILE", type=path_of("a file"), help="a file that backup has made"
    )


def add_export(parser: argparse.ArgumentParser) -> None:
    """Add the options of `export` to a parser."""
    folder = path_of("a folder")
    parser.add_argument("folder", metavar="DIR", type=folder, help="a new or an empty folder")
    parser.add_argument(
        "--traces", action="store_true", help="write every trace too, compressed with gzip"
    )


def run_backup(options: argparse.Namespace) -> int:
    """Copy the history to a file; return the exit code. Raises Refusal."""
    with open_existing(data_folder(options)) as history:
        back_up(history, options.file)
    say(f"The history is copied to {options.file}\n")
    return 0


def run_restore(options: argparse.Namespace) -> int:
    """Replace the history by a backup; return the exit code. Raises Refusal."""
    folder = data_folder(options)
    aside = restore(options.file, folder, all_levels(folder))
    say(f"The history of {options.file} is now {folder / FILE}\n")
    if aside is not None:
        say(f"The one that was there is now {aside}\n")
    return 0


def run_export(options: argparse.Namespace) -> int:
    """Write the history as CSV; return the exit code. Raises Refusal."""
    with open_existing(data_folder(options)) as history, progress("Writing") as line:
        count = export(history, options.folder, line.tell, traces=options.traces)
    say(f"{repetitions(count)} written to {options.folder}\n")
    return 0
