"""Table of the commands of `stillfoot`: a row holds the help texts and functions of a command."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from dataclasses import dataclass
from importlib import import_module
from typing import Any

Run = Callable[[argparse.Namespace], int]
"""Function that runs a command of `stillfoot` and returns its exit code."""
AddOptions = Callable[[argparse.ArgumentParser], None]
"""Function that adds the options of one command to its parser."""


@dataclass(frozen=True)
class Command:
    """One command of the program; its module is loaded only when the command is typed."""

    name: str
    """Name of the command, as typed."""
    about: str
    """Line about the command in the list of all commands."""
    says: str
    """Description of the command in its own help."""
    in_window: bool
    """Whether the command opens a window; if so, it takes the options of a window too."""
    runs: str
    """Function that runs the command, as "module.function" in `engine.commands`."""
    options: str = ""
    """Function that adds the options of the command, in the same form; empty: it has none."""

    def load(self) -> tuple[Run, AddOptions]:
        """Import and return the function that runs the command and the one that adds its options.

        Raises ImportError or AttributeError where a row of the table names no function.
        """
        return _function(self.runs), _function(self.options) if self.options else _no_options


COMMANDS = (
    Command(
        "five",
        "begin today's five minutes",
        "Begins today's five minutes, or goes on where you stopped.",
        in_window=True,
        runs="five.run_five",
        options="five.add_minutes",
    ),
    Command(
        "warm-up",
        "warm up before driving",
        "Begins a warm-up: two to three minutes before driving.",
        in_window=True,
        runs="five.run_warm_up",
    ),
    Command(
        "trial",
        "compare two foot positions in a trial",
        "Begins a trial of two foot positions, or goes on with it.",
        in_window=True,
        runs="trial.run_trial",
    ),
    Command(
        "plan",
        "print the next five minutes",
        "Prints the next five minutes, each repetition with its reason.",
        in_window=False,
        runs="five.run_plan",
        options="five.add_plan",
    ),
    Command(
        "report",
        "print your progress, or write it as a page",
        "Prints your progress. It can also write a page or a picture.",
        in_window=False,
        runs="report.run_report",
        options="report.add_report",
    ),
    Command(
        "levels",
        "list the levels, or help you write one",
        "Lists every level with its state. It also helps you write your own.",
        in_window=False,
        runs="levels.run_levels",
        options="levels.add_levels",
    ),
    Command(
        "pedals",
        "check what your pedals can show",
        "Half a minute at the pedals shows what they can measure. "
        "It names the levels that are partly luck with them.",
        in_window=False,
        runs="pedals.run_pedals",
        options="pedals.add_pedals",
    ),
    Command(
        "demo",
        "watch a simulated foot play",
        "A simulated foot plays a set, in the window or without one.",
        in_window=True,
        runs="demo.run_demo",
        options="demo.add_demo",
    ),
    Command(
        "score",
        "measure a recording of pedals",
        "Measures a recording of pedals: every run of blips, or one window.",
        in_window=False,
        runs="score.run_score",
        options="score.add_score",
    ),
    Command(
        "record",
        "record the pedals while driving",
        "Records the pedals, without a window, while you drive in a simulator. "
        "Then it measures the drive.",
        in_window=False,
        runs="record.run_record",
        options="record.add_record",
    ),
    Command(
        "backup",
        "copy the history to a file",
        "Copies the history to a new file, even during a game. "
        "The game makes daily copies by itself: --list names them.",
        in_window=False,
        runs="copying.run_backup",
        options="copying.add_backup",
    ),
    Command(
        "restore",
        "put a copy of the history back",
        "Replaces the history with a backup, or with a day's copy. "
        "The history that was there is moved aside. "
        "Of a damaged file, what can be read is restored.",
        in_window=False,
        runs="copying.run_restore",
        options="copying.add_restore",
    ),
    Command(
        "export",
        "write the history as CSV",
        "Writes the history into a new folder, as one CSV per table. "
        "The headers hold the units. Traces come only with --traces.",
        in_window=False,
        runs="copying.run_export",
        options="copying.add_export",
    ),
    Command(
        "remeasure",
        "measure every stored trace again",
        "Measures every stored trace again, by today's measures, on all cores. "
        "Verdicts, scores and passes stay as they were.",
        in_window=False,
        runs="remeasure.run_remeasure",
        options="remeasure.add_remeasure",
    ),
)
"""All commands of `stillfoot`, in the order of the help."""


def _function(place: str) -> Any:
    """Function of a command, imported by its place, such as "report.run_report"."""
    module, name = place.split(".")
    return getattr(import_module(f"engine.commands.{module}"), name)


def _no_options(parser: argparse.ArgumentParser) -> None:
    """Command without options of its own: add nothing to its parser."""
