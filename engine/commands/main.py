"""The command `stillfoot`: options in, exit code out, one clear line for whatever is wrong."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import NoReturn

from drills.refusal import Refusal
from engine import __version__
from engine.commands.copying import (
    add_backup,
    add_export,
    add_restore,
    run_backup,
    run_export,
    run_restore,
)
from engine.commands.demo import add_demo, run_demo
from engine.commands.five import add_minutes, add_plan, run_five, run_plan, run_warm_up
from engine.commands.levels import add_levels, run_levels
from engine.commands.options import DATA_VARIABLE, UsageError, path_of, quoted
from engine.commands.play import run_play
from engine.commands.record import add_record, run_record
from engine.commands.remeasure import add_remeasure, run_remeasure
from engine.commands.report import add_report, run_report
from engine.commands.score import add_score, run_score
from engine.commands.trial import run_trial
from engine.console import say, warn
from engine.stage.shape import LEAST, USUAL, Shape, is_size

BAD_INPUT = 2
"""Exit code where something given to the program cannot be used."""
LONGEST = 500
"""Characters of what is said about the command line."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run stillfoot with these arguments (those of the process where None); its exit code."""
    try:
        options = _parser().parse_args(arguments)
        return int(options.run(options))
    except _HelpedError:
        return 0
    except Refusal as error:
        warn(str(error))
        return BAD_INPUT
    except BrokenPipeError:
        # Whoever read the output has gone; there is nobody left to tell.
        return 0
    except KeyboardInterrupt:
        return 130


class _HelpedError(Exception):
    """Help or the version was asked for and given."""


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        shown = message if len(message) <= LONGEST else f"{message[:LONGEST]}..."
        raise UsageError(f"{shown} (see {self.prog} --help)")

    def exit(self, status: int = 0, message: str | None = None) -> NoReturn:
        raise _HelpedError(message or status)

    def _print_message(self, message: str, file: object = None) -> None:
        say(message)


def _parser() -> _Parser:
    parser = _Parser(
        prog="stillfoot",
        description="Teaches a sim racer's right foot to blip without disturbing the brake.",
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"stillfoot {__version__}")
    parser.set_defaults(run=run_play)
    _common(parser, None)
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")
    for command in COMMANDS:
        added = commands.add_parser(
            command.name, help=command.about, description=command.says, allow_abbrev=False
        )
        added.set_defaults(run=command.run)
        for add in command.options:
            add(added)
    return parser


def _common(parser: argparse.ArgumentParser, default: object) -> None:
    """Options that may stand before or after the command."""
    _data(parser, default)
    parser.add_argument(
        "--events",
        metavar="FILE",
        type=path_of("a file"),
        default=default,
        help="append a JSON line for each thing that happens",
    )
    parser.add_argument(
        "--window",
        metavar="WxH",
        type=_shape,
        default=default,
        help="pixels (else as it was left, at first {}x{})".format(*USUAL),
    )


def _data(parser: argparse.ArgumentParser, default: object) -> None:
    """The option that names the data folder."""
    parser.add_argument(
        "--data",
        metavar="DIR",
        type=path_of("a folder"),
        default=default,
        help=f"data folder (else ${DATA_VARIABLE}, else the usual place; the demo: thrown away)",
    )


def _shape(text: str) -> Shape:
    """A window that is asked for."""
    try:
        size = tuple(int(part) for part in text.lower().split("x"))
    except ValueError:
        size = ()
    if len(size) != 2 or not is_size(size):
        raise argparse.ArgumentTypeError(
            f"expected WIDTHxHEIGHT of at least {LEAST[0]}x{LEAST[1]}, found {quoted(text)}"
        )
    return Shape(size)


def _in_window(parser: argparse.ArgumentParser) -> None:
    """Options of a command that opens a window."""
    _common(parser, argparse.SUPPRESS)


def _on_data(parser: argparse.ArgumentParser) -> None:
    """Options of a command that reads the history."""
    _data(parser, argparse.SUPPRESS)


@dataclass(frozen=True)
class Command:
    """One command of the program."""

    name: str
    """As it is typed."""
    about: str
    """What the list of commands says of it."""
    says: str
    """What its own help says of it."""
    run: Callable[[argparse.Namespace], int]
    """Runs it; the exit code."""
    options: Sequence[Callable[[argparse.ArgumentParser], None]]
    """Give its options to a parser."""


COMMANDS = (
    Command(
        "five",
        "begin today's five minutes at once",
        "Begins today's five minutes at once, or goes on with what is left of them.",
        run_five,
        (_in_window, add_minutes),
    ),
    Command(
        "warm-up",
        "begin a warm-up at once, before driving",
        "Begins a warm-up at once: two to three minutes before driving.",
        run_warm_up,
        (_in_window,),
    ),
    Command(
        "trial",
        "try a foot position: begin a trial at once, or go on",
        "Begins a trial of two foot positions at once, or goes on with the one under way.",
        run_trial,
        (_in_window,),
    ),
    Command(
        "plan",
        "print what the next five minutes will be",
        "Prints what the next five minutes will be: each repetition with its reason.",
        run_plan,
        (_on_data, add_plan),
    ),
    Command(
        "report",
        "print how practice went on, or write it as a page",
        "Prints how practice went on; writes it as a page to read or print, or as a picture.",
        run_report,
        (_on_data, add_report),
    ),
    Command(
        "levels",
        "list the levels, or help with one of your own",
        "Lists every level with its state, checks one of your own, or begins one.",
        run_levels,
        (_on_data, add_levels),
    ),
    Command(
        "demo",
        "watch a simulated foot play a set",
        "A simulated foot plays a set, in the window or without one.",
        run_demo,
        (_in_window, add_demo),
    ),
    Command(
        "score",
        "measure a recording of pedals",
        "Measures a recording of pedals: every run of blips in it, or one window.",
        run_score,
        (_on_data, add_score),
    ),
    Command(
        "record",
        "record the pedals while driving",
        "Records the pedals while you drive in a simulator, without a window, then measures it.",
        run_record,
        (_on_data, add_record),
    ),
    Command(
        "backup",
        "copy the history to a file",
        "Copies the history to a new file, also while the game is running.",
        run_backup,
        (_on_data, add_backup),
    ),
    Command(
        "restore",
        "put a copy of the history in its place",
        "Makes a file that backup has made the history. The one that was there is moved aside. "
        "Where the file is damaged, that is said in one line, and nothing is changed.",
        run_restore,
        (_on_data, add_restore),
    ),
    Command(
        "export",
        "write the history as CSV",
        "Writes everything in the history but traces into a new folder, as CSV with a header of "
        "units, a file for each table.",
        run_export,
        (_on_data, add_export),
    ),
    Command(
        "remeasure",
        "measure every kept trace again",
        "Measures every kept trace again, by what the measures are today, on all cores. "
        "Only measures are changed: what was told stays told, each verdict, score and pass.",
        run_remeasure,
        (_on_data, add_remeasure),
    ),
)
"""The commands in the order that help lists them."""
