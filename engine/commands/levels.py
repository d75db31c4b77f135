"""The command `stillfoot levels`: every level and its state, and help with levels of one's own."""

from __future__ import annotations

import argparse
import json
from collections.abc import Sequence
from pathlib import Path

from drills.example import example
from drills.kinds import KINDS
from drills.level import Level
from drills.trace import Pedal
from engine.commands.options import data_folder, path_of, quoted
from engine.console import one_line, say
from engine.ladder.ladder import LadderLevel, LadderStage, State, ladder_stages
from engine.ladder.level_files import OWN, SHIPPED, check_level, load_levels
from engine.practice.passes import ALL_PEDALS
from engine.store import History, ledger, open_history
from engine.store.opening import is_new
from engine.store.retention import all_retention


def add_levels(parser: argparse.ArgumentParser) -> None:
    """Give the options of `levels` to a parser."""
    one = parser.add_mutually_exclusive_group()
    one.add_argument("--json", action="store_true", help="one JSON object a level")
    one.add_argument(
        "--check",
        metavar="FILE",
        type=path_of("a file"),
        help="whether a level of your own can be played, or the first mistake in it",
    )
    one.add_argument(
        "--new",
        metavar="KIND",
        type=_kind,
        help=f"a commented level to start from, of {', '.join(KINDS)}",
    )


def run_levels(options: argparse.Namespace) -> int:
    """List the levels, check one or print an example; the exit code. Raises Refusal."""
    if options.new is not None:
        say(example(KINDS[options.new], KINDS))
        return 0
    folder = data_folder(options)
    folders = [SHIPPED, folder / OWN]
    if options.check is not None:
        say(f"{_fine(options.check, check_level(options.check, folders))}\n")
        return 0
    stages = _ladder(folder, load_levels(folders))
    say(as_json(stages) if options.json else as_text(stages))
    return 0


def as_json(stages: Sequence[LadderStage]) -> str:
    """The levels, each as one line of JSON."""
    lines = [
        {
            "id": rung.level.id,
            "title": rung.level.title,
            "stage": ladder_stage.name,
            "kind": rung.level.kind.name,
            "needs": list(rung.level.needs),
            "pedals": [pedal.value for pedal in rung.level.pedals],
            "state": rung.state.value,
        }
        for ladder_stage in stages
        for rung in ladder_stage.rungs
    ]
    return "".join(f"{json.dumps(line, allow_nan=False)}\n" for line in lines)


def as_text(stages: Sequence[LadderStage]) -> str:
    """The levels for a person, stage by stage."""
    rungs = [rung for ladder_stage in stages for rung in ladder_stage.rungs]
    id_width = max(len(rung.level.id) for rung in rungs)
    kind_width = max(len(rung.level.kind.name) for rung in rungs)
    state_width = max(len(state) for state in State)

    def line(rung: LadderLevel) -> str:
        level = rung.level
        known = f"{level.id:<{id_width}}  {level.kind.name:<{kind_width}}"
        return f"  {known}  {rung.state:<{state_width}}  {level.title}\n"

    return "\n".join(
        one_line(f"{ladder_stage.name}: {ladder_stage.done} of {len(ladder_stage.rungs)} passed")
        + "\n"
        + "".join(map(line, ladder_stage.rungs))
        for ladder_stage in stages
    )


def _ladder(folder: Path, levels: Sequence[Level]) -> tuple[LadderStage, ...]:
    """The levels with their states by the history in a folder; nothing is made where it has none.

    Which pedals are plugged in is not looked at: those of the saved binding count as there, and
    all of them where none was saved.
    """
    if is_new(folder):
        return ladder_stages(levels, frozenset())
    with open_history(folder, levels) as history:
        there, retention = pedals_of(history), all_retention(history)
        return ladder_stages(
            levels, ledger.passed(history), ledger.placed(history), there, retention=retention
        )


def pedals_of(history: History, unknown: frozenset[Pedal] = ALL_PEDALS) -> frozenset[Pedal]:
    """Those of the saved binding, or these where none was saved. Raises StoreError."""
    from engine.stage.sdl_setup import give_hints

    give_hints()
    from engine.setup.saved import saved_binding

    binding = saved_binding(history)
    if binding is None:
        return unknown
    return ALL_PEDALS if binding.clutch is not None else ALL_PEDALS - {Pedal.CLUTCH}


def _fine(path: Path, level: Level) -> str:
    """What is said of a file that can be played."""
    rule = level.rule
    return one_line(
        f"{path}: fine: {level.title}, a {level.kind.name} level in sets of {level.repetitions}, "
        f"passed with {rule.clean} clean of the last {rule.of}"
    )


def _kind(text: str) -> str:
    """The name of a kind that is asked for."""
    if text not in KINDS:
        raise argparse.ArgumentTypeError(
            f"expected one of {', '.join(KINDS)}, found {quoted(text)}"
        )
    return text
