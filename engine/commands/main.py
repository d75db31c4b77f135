"""Entry point of the command `stillfoot`: arguments in, exit code out, one line per error."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from typing import NoReturn

from drills.refusal import Refusal
from engine.commands.more_help import EVERY, MORE, Lines
from engine.commands.options import DATA_VARIABLE, UsageError, path_of, quoted
from engine.commands.play import run_play
from engine.commands.players import player_name
from engine.commands.stopping import Stopping
from engine.commands.table import COMMANDS
from engine.console import say, warn
from engine.stage.sdl_setup import give_hints
from engine.stage.window_shape import DEFAULT_SIZE, SMALLEST_SIZE, Shape, is_size

BAD_INPUT = 2
"""Exit code of the program for input that cannot be used."""
LONGEST = 500
"""Largest length of an error about the command line, in characters."""
OWNER_ALONE = 0o077
"""Permissions withheld from every new file and folder: all those of the group and of others."""


def main(
    arguments: Sequence[str] | None = None,
    refuse: Callable[[str], None] = warn,
    stopping: Stopping | None = None,
) -> int:
    """Run stillfoot with some arguments (None: those of the process); return the exit code.

    `refuse` is told the line of a Refusal that ends it, unless `stopping` says that a signal did.
    """
    # Before any command imports pygame, which else prints its own line among the output.
    give_hints()
    # Set for the whole process, as SQLite makes files too. Windows has no such permissions.
    before = os.umask(OWNER_ALONE)
    try:
        given = sys.argv[1:] if arguments is None else arguments
        options = _parser(given).parse_args(given)
        return int(options.run(options))
    except _HelpedError:
        return 0
    except Refusal as error:
        if stopping is None or not stopping.asked:
            refuse(str(error))
        return BAD_INPUT
    except BrokenPipeError:
        # The reader of the output has gone: there is no one to report an error to.
        return 0
    except KeyboardInterrupt:
        return 130
    finally:
        os.umask(before)


class _HelpedError(Exception):
    """Help or the version was asked for and has been printed: nothing is left to run."""


class _Version(argparse.Action):
    """Option that prints the versions; pygame is imported for them only then."""

    def __init__(self, option_strings: Sequence[str], dest: str, help: str) -> None:
        super().__init__(option_strings, dest, nargs=0, help=help)

    def __call__(self, parser: argparse.ArgumentParser, *_: object) -> NoReturn:
        from engine.commands.versions import versions

        say(versions())
        parser.exit()


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        text = message.replace("argument -", "-").removeprefix("argument ")
        if len(text) > LONGEST:
            text = f"{text[:LONGEST]}..."
        raise UsageError(f"{text} (see {self.prog} --help)")

    def exit(self, status: int = 0, message: str | None = None) -> NoReturn:
        raise _HelpedError(message or status)

    def _print_message(self, message: str, file: object = None) -> None:
        say(message)


def _parser(arguments: Sequence[str]) -> _Parser:
    """Parser for a command line; it loads only the commands named there, with their options."""
    parser = _Parser(
        prog="stillfoot",
        description="Teaches a sim racer's right foot to blip without disturbing the brake.",
        epilog=EVERY,
        formatter_class=Lines,
        allow_abbrev=False,
    )
    parser.add_argument(
        "--version", action=_Version, help="print the versions of stillfoot and its parts"
    )
    parser.set_defaults(run=run_play)
    _common(parser, None)
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")
    for command in COMMANDS:
        added = commands.add_parser(
            command.name,
            help=command.about,
            description=command.says,
            epilog=MORE.get(command.name),
            formatter_class=Lines,
            allow_abbrev=False,
        )
        if command.name in arguments:
            run, add_options = command.load()
            added.set_defaults(run=run)
            if command.in_window:
                _common(added, argparse.SUPPRESS)
            else:
                _data(added, argparse.SUPPRESS)
            add_options(added)
    return parser


def _common(parser: argparse.ArgumentParser, default: object) -> None:
    """Add to a parser the options that may stand before or after a command with a window."""
    _data(parser, default)
    parser.add_argument(
        "--events",
        metavar="FILE",
        type=path_of("a file"),
        default=default,
        help="append a JSON line for each event",
    )
    parser.add_argument(
        "--window",
        metavar="WxH",
        type=_shape,
        default=default,
        help="size in pixels (default: as you left it, at first {}x{})".format(*DEFAULT_SIZE),
    )


def _data(parser: argparse.ArgumentParser, default: object) -> None:
    """Add to a parser the options that name the data folder and the player in it."""
    parser.add_argument(
        "--data",
        metavar="DIR",
        type=path_of("a folder"),
        default=default,
        help=f"data folder (default: ${DATA_VARIABLE}, or the usual place; demo: none)",
    )
    parser.add_argument(
        "--player",
        metavar="NAME",
        type=player_name,
        default=default,
        help="name of the player, whose history stands apart",
    )


def _shape(text: str) -> Shape:
    """Argument type for argparse: the size of a window, as WIDTHxHEIGHT."""
    try:
        size = tuple(int(part) for part in text.lower().split("x"))
    except ValueError:
        size = ()
    if len(size) != 2 or not is_size(size):
        least = "{}x{}".format(*SMALLEST_SIZE)
        raise argparse.ArgumentTypeError(
            f"expected WIDTHxHEIGHT of at least {least}, found {quoted(text)}"
        )
    return Shape(size)
