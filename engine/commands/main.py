"""The command `stillfoot`: options in, exit code out, one clear line for whatever is wrong."""

from __future__ import annotations

import argparse
import os
import tempfile
from collections.abc import Sequence
from contextlib import ExitStack, closing
from pathlib import Path
from typing import NoReturn

from drills.level import Level
from drills.refusal import Refusal
from engine import __version__
from engine.commands.demo import ManualClock, as_json, as_text, play
from engine.commands.options import UsageError, path_of, quoted, within
from engine.commands.score import add_score, run_score
from engine.console import say, warn
from engine.levels import OWN, SHIPPED, load_levels
from engine.stage.events import Events
from engine.stage.hints import give_hints
from engine.store import History

BAD_INPUT = 2
"""Exit code where something given to the program cannot be used."""
DATA_VARIABLE = "STILLFOOT_DATA"
"""Environment variable that names the data folder."""
DEMO_LEVEL = "blip-1-first"
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


def _run_game(options: argparse.Namespace) -> int:
    give_hints()
    from engine.commands.play import run_game

    folder = data_folder(options)
    levels = load_levels([SHIPPED, folder / OWN])
    with History(folder) as history:
        demo = _demo_level(levels, None)
        return run_game(history, levels, demo, options.window, options.events)


def _run_demo(options: argparse.Namespace) -> int:
    folder: Path | None = options.data
    levels = load_levels([SHIPPED] if folder is None else [SHIPPED, folder / OWN])
    level = _demo_level(levels, options.level)
    repetitions = options.reps or level.repetitions
    if options.headless:
        return _play_headless(options, level, repetitions, folder)
    if options.json:
        raise UsageError("--json: expected together with --headless, found without it")
    give_hints()
    from engine.commands.play import run_demo
    from engine.flow.demonstration import Show

    show = Show(level, repetitions, options.seed, options.skill, folder)
    return run_demo(show, levels, options.window, options.events)


def _play_headless(
    options: argparse.Namespace, level: Level, repetitions: int, folder: Path | None
) -> int:
    write = as_json if options.json else as_text
    with ExitStack() as stack:
        if folder is None:
            folder = Path(stack.enter_context(tempfile.TemporaryDirectory(prefix="stillfoot-")))
        history = stack.enter_context(History(folder))
        clock = ManualClock()
        events = stack.enter_context(closing(Events(options.events, clock)))
        records = play(level, repetitions, options.seed, options.skill, history, events, clock)
        for number, record in enumerate(records, start=1):
            say(f"{write(number, record)}\n")
    return 0


def data_folder(options: argparse.Namespace) -> Path:
    """Where the history and the player's own levels are."""
    if options.data is not None:
        return Path(options.data)
    named = os.environ.get(DATA_VARIABLE)
    if named:
        return Path(named)
    from platformdirs import user_data_path

    return user_data_path("stillfoot", appauthor=False)


def _demo_level(levels: Sequence[Level], wanted: str | None) -> Level:
    named = wanted or DEMO_LEVEL
    for level in levels:
        if level.id == named:
            return level
    ids = ", ".join(level.id for level in levels)
    raise UsageError(f"--level: expected one of {ids}, found {quoted(named)}")


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
    parser.set_defaults(run=_run_game)
    _common(parser, None)
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")
    demo = commands.add_parser(
        "demo",
        help="watch a simulated foot play a set",
        description="A simulated foot plays a set, in the window or without one.",
        allow_abbrev=False,
    )
    demo.set_defaults(run=_run_demo)
    _common(demo, argparse.SUPPRESS)
    demo.add_argument("--headless", action="store_true", help="without a window, at full speed")
    demo.add_argument("--json", action="store_true", help="one JSON object a repetition")
    demo.add_argument("--level", metavar="ID", help=f"level to play (default {DEMO_LEVEL})")
    demo.add_argument(
        "--reps", metavar="N", type=within(int, 1, 10_000), help="repetitions (default: a set)"
    )
    demo.add_argument(
        "--seed", metavar="S", type=within(int, 0, 2**63 - 1), default=1, help="of the foot"
    )
    demo.add_argument(
        "--skill",
        metavar="0..1",
        type=within(float, 0.0, 1.0),
        default=0.5,
        help="0 beginner to 1 expert (default 0.5)",
    )
    score = commands.add_parser(
        "score",
        help="measure a recording of pedals",
        description="Measures a recording of pedals: every run of blips in it, or one window.",
        allow_abbrev=False,
    )
    add_score(score)
    score.set_defaults(run=run_score)
    return parser


def _common(parser: argparse.ArgumentParser, default: object) -> None:
    """Options that may stand before or after the command."""
    parser.add_argument(
        "--data",
        metavar="DIR",
        type=path_of("a folder"),
        default=default,
        help=f"data folder (else ${DATA_VARIABLE}, else the usual place; the demo: thrown away)",
    )
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
        type=_size,
        default=default or (1280, 720),
        help="pixels (default 1280x720)",
    )


def _size(text: str) -> tuple[int, int]:
    try:
        width, height = (int(part) for part in text.lower().split("x"))
    except ValueError:
        width = height = 0
    if not (640 <= width <= 16_384 and 360 <= height <= 16_384):
        raise argparse.ArgumentTypeError(
            f"expected WIDTHxHEIGHT of at least 640x360, found {quoted(text)}"
        )
    return width, height
