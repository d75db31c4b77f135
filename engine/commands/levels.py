"""The command `stillfoot levels`: lists levels, checks a player's own, begins one."""

from __future__ import annotations

import argparse
import json
from collections.abc import Mapping, Sequence
from pathlib import Path
from types import MappingProxyType

from drills.example import example
from drills.example_values import ExampleValues
from drills.health.words import LUCK
from drills.kinds import KINDS
from drills.level import Level
from drills.trace import Pedal
from engine.commands.corner import add_corner, corner_of
from engine.commands.data import read_data
from engine.commands.new_file import new_file
from engine.commands.options import UsageError, data_folder, path_of, quoted
from engine.console import one_line, say
from engine.ladder.ladder import RETAINED, LadderLevel, LadderStage, State, ladder_stages
from engine.ladder.level_files import OWN, SHIPPED, check_level, load_levels
from engine.practice.passes import ALL_PEDALS, SOUND
from engine.practice.personal_limit import PersonalLimit
from engine.practice.personal_words import personal_words
from engine.store import History, ledger
from engine.store.opening import is_new
from engine.store.personal import personal_limits
from engine.store.retention import all_retention

Personal = Mapping[str, PersonalLimit]
"""Personal limits by the ids of their levels."""
NO_LIMITS: Personal = MappingProxyType({})
"""Personal limits where there is no history."""


def add_levels(parser: argparse.ArgumentParser) -> None:
    """Add the options of `levels` to a parser."""
    group = parser.add_mutually_exclusive_group()
    group.add_argument("--json", action="store_true", help="one JSON object per level")
    group.add_argument(
        "--check",
        metavar="FILE",
        type=path_of("a file"),
        help="say whether your own level can be played",
    )
    group.add_argument(
        "--new",
        metavar="KIND",
        type=_kind,
        help=f"print a commented example level: {', '.join(KINDS)}",
    )
    parser.add_argument(
        "--file",
        metavar="FILE",
        type=path_of("a file"),
        help="with --new: write it to this new file",
    )
    add_corner(parser)


def run_levels(options: argparse.Namespace) -> int:
    """List the levels, check one or begin one; return the exit code. Raises Refusal."""
    values = corner_of(options)
    if options.new is not None:
        _begin(options.new, options.file, values)
        return 0
    if options.file is not None:
        raise UsageError("--file: expected together with --new, found without it")
    folder = data_folder(options)
    folders = [SHIPPED, folder / OWN]
    if options.check is not None:
        say(f"{_valid_words(options.check, check_level(options.check, folders))}\n")
        return 0
    found = _ladder(folder, load_levels(folders))
    say(levels_json(*found) if options.json else levels_text(*found))
    return 0


def _begin(kind: str, path: Path | None, values: ExampleValues | None) -> None:
    """Print the example of a kind, or write it to a new file. Raises UsageError."""
    text = example(KINDS[kind], KINDS, values)
    if path is None:
        say(text)
        return
    with new_file(path) as write:
        write(text)
    say(f"{one_line(f'{path}: a {kind} level to start from')}\n")


def levels_json(
    stages: Sequence[LadderStage],
    lucky: frozenset[str] = frozenset(),
    personal: Personal = NO_LIMITS,
) -> str:
    """Levels as JSON, one line a level; `lucky` are ids of levels that are partly luck."""
    lines = [
        {
            "id": rung.level.id,
            "title": rung.level.title,
            "stage": ladder_stage.name,
            "kind": rung.level.kind.name,
            "needs": list(rung.level.needs),
            "pedals": [pedal.value for pedal in rung.level.pedals],
            "state": rung.state.value,
            "partly_luck": rung.level.id in lucky,
            "answers": [fault.value for fault in rung.level.answers],
            "reach": rung.level.reach,
            "asks": rung.level.kind.asks(rung.level),
            **_personal_fields(personal.get(rung.level.id, PersonalLimit())),
        }
        for ladder_stage in stages
        for rung in ladder_stage.rungs
    ]
    return "".join(f"{json.dumps(line, allow_nan=False)}\n" for line in lines)


def _personal_fields(limit: PersonalLimit) -> dict[str, object]:
    """Fields of one level for its personal limit: factors on its limits, null where there is none.

    They are of every level that was played; the game shows those of retained levels.
    """
    return {
        "personal_limit": limit.factor,
        "personal_best": limit.best,
        "personal_best_day": None if limit.best_day is None else limit.best_day.isoformat(),
        "personal_counted": len(limit.loads),
    }


def levels_text(
    stages: Sequence[LadderStage],
    lucky: frozenset[str] = frozenset(),
    personal: Personal = NO_LIMITS,
) -> str:
    """Levels as text, stage by stage; `lucky` are ids of levels that are partly luck."""
    rungs = [rung for ladder_stage in stages for rung in ladder_stage.rungs]
    id_width = max(len(rung.level.id) for rung in rungs)
    kind_width = max(len(rung.level.kind.name) for rung in rungs)
    state_width = max(len(state) for state in State)

    def line(rung: LadderLevel) -> str:
        level = rung.level
        columns = f"{level.id:<{id_width}}  {level.kind.name:<{kind_width}}"
        luck = f" ({LUCK})" if level.id in lucky else ""
        limit = personal.get(level.id) if rung.state in RETAINED else None
        words = "" if limit is None else f" ({personal_words(limit)})"
        return f"  {columns}  {rung.state:<{state_width}}  {level.title}{luck}{words}\n"

    return "\n".join(
        one_line(f"{ladder_stage.name}: {ladder_stage.done} of {len(ladder_stage.rungs)} passed")
        + "\n"
        + "".join(map(line, ladder_stage.rungs))
        for ladder_stage in stages
    )


def _ladder(
    folder: Path, levels: Sequence[Level]
) -> tuple[tuple[LadderStage, ...], frozenset[str], Personal]:
    """Stages with the state of each level, ids of those that are partly luck, personal limits.

    From the history in a folder, if there is one. The pedals of the saved binding count as plugged
    in; all of them if none is saved. Raises StoreError.
    """
    if is_new(folder):
        return ladder_stages(levels, frozenset()), frozenset(), NO_LIMITS
    return read_data(folder, levels, lambda history: _ladder_in(history, levels))


def _ladder_in(
    history: History, levels: Sequence[Level]
) -> tuple[tuple[LadderStage, ...], frozenset[str], Personal]:
    """What `_ladder` gives, by a history. Raises StoreError."""
    from engine.setup.health_saved import saved_luck

    there, retention = pedals_of(history), all_retention(history)
    stages = ladder_stages(
        levels, ledger.passed(history), ledger.placed(history), there, retention=retention
    )
    return stages, saved_luck(history, levels), personal_limits(history)


def pedals_of(history: History, unknown: frozenset[str] = ALL_PEDALS) -> frozenset[str]:
    """What levels may need and there is: pedals of the saved binding, and sound unless it is off.

    `unknown` are the pedals where no binding is saved. Raises StoreError.
    """
    from engine.game.sound_and_light import saved_signals
    from engine.setup.saved_rigs import saved_binding
    from engine.stage.signals import Volume

    silent = {SOUND} if saved_signals(history).volume is Volume.OFF else set()
    binding = saved_binding(history)
    if binding is None:
        return unknown - silent
    lacking = silent if binding.clutch is not None else silent | {Pedal.CLUTCH}
    return ALL_PEDALS - lacking


def _valid_words(path: Path, level: Level) -> str:
    """Sentence for a level file that is valid."""
    rule, asked = level.rule, level.kind.asks(level)
    asks = f"; each asks {asked}" if asked else ""
    return one_line(
        f"{path}: fine: {level.title}, a {level.kind.name} level of {level.repetitions} a set; "
        f"{rule.clean} clean of the last {rule.of} pass it{asks}"
    )


def _kind(text: str) -> str:
    """Argument type for argparse: the name of a kind of drill."""
    if text not in KINDS:
        raise argparse.ArgumentTypeError(
            f"expected one of {', '.join(KINDS)}, found {quoted(text)}"
        )
    return text
