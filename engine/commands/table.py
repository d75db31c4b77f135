"""The commands of `stillfoot`: what help says of each, and what it is made of."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from dataclasses import dataclass

Run = Callable[[argparse.Namespace], int]
"""Runs a command; the exit code."""
AddOptions = Callable[[argparse.ArgumentParser], None]
"""Gives a parser the options that one command alone has."""


@dataclass(frozen=True)
class Command:
    """One command of the program."""

    name: str
    """As it is typed."""
    about: str
    """What the list of commands says of it."""
    says: str
    """What its own help says of it."""
    in_window: bool
    """Whether it opens a window; the others only read or write."""


COMMANDS = (
    Command(
        "five",
        "begin today's five minutes at once",
        "Begins today's five minutes at once, or goes on with what is left of them.",
        in_window=True,
    ),
    Command(
        "warm-up",
        "begin a warm-up at once, before driving",
        "Begins a warm-up at once: two to three minutes before driving.",
        in_window=True,
    ),
    Command(
        "trial",
        "try a foot position: begin a trial at once, or go on",
        "Begins a trial of two foot positions at once, or goes on with the one under way.",
        in_window=True,
    ),
    Command(
        "plan",
        "print what the next five minutes will be",
        "Prints what the next five minutes will be: each repetition with its reason.",
        in_window=False,
    ),
    Command(
        "report",
        "print how practice went on, or write it as a page",
        "Prints how practice went on; writes it as a page to read or print, or as a picture.",
        in_window=False,
    ),
    Command(
        "levels",
        "list the levels, or help with one of your own",
        "Lists every level with its state, checks one of your own, or begins one.",
        in_window=False,
    ),
    Command(
        "demo",
        "watch a simulated foot play a set",
        "A simulated foot plays a set, in the window or without one.",
        in_window=True,
    ),
    Command(
        "score",
        "measure a recording of pedals",
        "Measures a recording of pedals: every run of blips in it, or one window.",
        in_window=False,
    ),
    Command(
        "record",
        "record the pedals while driving",
        "Records the pedals while you drive in a simulator, without a window, then measures it.",
        in_window=False,
    ),
    Command(
        "backup",
        "copy the history to a file",
        "Copies the history to a new file, also while the game is running.",
        in_window=False,
    ),
    Command(
        "restore",
        "put a copy of the history in its place",
        "Makes a file that backup has made the history. The one that was there is moved aside. "
        "Where the file is damaged, that is said in one line, and nothing is changed.",
        in_window=False,
    ),
    Command(
        "export",
        "write the history as CSV",
        "Writes everything in the history but traces into a new folder, as CSV with a header of "
        "units, a file for each table.",
        in_window=False,
    ),
    Command(
        "remeasure",
        "measure every kept trace again",
        "Measures every kept trace again, by what the measures are today, on all cores. "
        "Only measures are changed: what was told stays told, each verdict, score and pass.",
        in_window=False,
    ),
)
"""The commands in the order that help lists them."""


def load(name: str) -> tuple[Run, AddOptions]:
    """What a command is made of, loaded for the one that is typed and for no other.

    Raises ValueError for a name that no command has.
    """
    match name:
        case "five":
            from engine.commands.five import add_minutes, run_five

            return run_five, add_minutes
        case "warm-up":
            from engine.commands.five import run_warm_up

            return run_warm_up, _no_options
        case "trial":
            from engine.commands.trial import run_trial

            return run_trial, _no_options
        case "plan":
            from engine.commands.five import add_plan, run_plan

            return run_plan, add_plan
        case "report":
            from engine.commands.report import add_report, run_report

            return run_report, add_report
        case "levels":
            from engine.commands.levels import add_levels, run_levels

            return run_levels, add_levels
        case "demo":
            from engine.commands.demo import add_demo, run_demo

            return run_demo, add_demo
        case "score":
            from engine.commands.score import add_score, run_score

            return run_score, add_score
        case "record":
            from engine.commands.record import add_record, run_record

            return run_record, add_record
        case "backup":
            from engine.commands.copying import add_backup, run_backup

            return run_backup, add_backup
        case "restore":
            from engine.commands.copying import add_restore, run_restore

            return run_restore, add_restore
        case "export":
            from engine.commands.copying import add_export, run_export

            return run_export, add_export
        case "remeasure":
            from engine.commands.remeasure import add_remeasure, run_remeasure

            return run_remeasure, add_remeasure
    raise ValueError(f"command: expected one of the table, found '{name}'")


def _no_options(parser: argparse.ArgumentParser) -> None:
    """A command with no options of its own."""
