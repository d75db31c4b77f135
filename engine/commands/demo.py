"""The command `stillfoot demo`: a simulated foot plays a set, in a window or headless."""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable, Mapping
from contextlib import closing
from dataclasses import asdict
from typing import TYPE_CHECKING

from drills.level import Level
from engine.commands.data import with_repair
from engine.commands.options import UsageError, data_folder, level_called, local_now, quoted, within
from engine.commands.play import DEMO_LEVEL, in_window
from engine.commands.stopping import Stopping
from engine.console import say
from engine.ladder.level_files import OWN, SHIPPED, load_levels
from engine.pedals.faults import FAULTS, Fault, fault_called
from engine.store import Record

if TYPE_CHECKING:
    from drills.phases import Transition
    from drills.task import Task
    from engine.drill.demonstration import Demonstration

DIGITS = 12
"""Significant digits of each number printed as JSON; later ones differ between systems."""


def add_demo(parser: argparse.ArgumentParser) -> None:
    """Add the options of `demo` to a parser."""
    add = parser.add_argument
    add("--headless", action="store_true", help="play without a window, at full speed")
    add("--json", action="store_true", help="one JSON object per repetition")
    add("--level", metavar="ID", help=f"level to play (default {DEMO_LEVEL})")
    add("--tour", action="store_true", help="play one repetition of every kind of drill")
    faults = "; ".join(f"{fault.name}: {fault.about}" for fault in FAULTS)
    faults = faults.replace("%", "%%")
    add("--fault", metavar="NAME", type=_fault, help=f"fault of the pedals: {faults}")
    add("--reps", metavar="N", type=within(int, 1, 10_000), help="repetitions (default: one set)")
    add("--seed", metavar="S", type=within(int, 0, 2**63 - 1), default=1, help="seed of the foot")
    add(
        "--skill",
        metavar="0..1",
        type=within(float, 0.0, 1.0),
        default=0.5,
        help="skill: 0 a beginner, 1 an expert (default 0.5)",
    )


def _fault(text: str) -> Fault:
    """Argument type for argparse: a fault by its name."""
    fault = fault_called(text)
    if fault is None:
        names = ", ".join(fault.name for fault in FAULTS)
        raise argparse.ArgumentTypeError(f"expected one of {names}, found {quoted(text)}")
    return fault


def run_demo(options: argparse.Namespace) -> int:
    """Play a set with the simulated foot; return the exit code. Raises Refusal.

    If its history turns out damaged, also in the middle of the set, it is repaired and the demo
    starts again.
    """
    if options.player is not None and options.data is None:
        raise UsageError("--player: expected with --data, as the demo saves nothing without it")
    folder = None if options.data is None else data_folder(options)
    levels = load_levels([SHIPPED] if folder is None else [SHIPPED, folder / OWN])
    if options.tour and options.level is not None:
        raise UsageError(f"--level: expected none with --tour, found {quoted(options.level)}")
    level = level_called(options.level or DEMO_LEVEL, levels)
    if options.json and not options.headless:
        raise UsageError("--json: expected together with --headless, found without it")
    from engine.drill.demonstration import Demonstration

    repetitions = options.reps or (1 if options.tour else level.repetitions)
    demonstration = Demonstration(
        *(level, repetitions, options.seed, options.skill, folder, levels),
        tour=options.tour,
        fault=options.fault,
    )

    def play() -> int:
        return (_play_headless if options.headless else _play_in_window)(demonstration, options)

    return play() if folder is None else with_repair(folder, levels, play)


def _play_in_window(demonstration: Demonstration, options: argparse.Namespace) -> int:
    from engine.drill.demo import watch
    from engine.drill.lesson_saved import Lessons
    from engine.kit.foot_pose import Way

    lessons = Lessons(None, Way.ROLL) if demonstration.tour else None
    with Stopping() as stopping, demonstration.history() as history:
        in_window(
            options.window,
            options.events,
            lambda rig, stage, _: watch(
                demonstration, rig.clock, stage, history, local_now, lessons
            ),
            asked_to_end=lambda: stopping.asked,
        )
    return stopping.code


def _play_headless(demonstration: Demonstration, options: argparse.Namespace) -> int:
    from engine.drill.demo import watch
    from engine.stage.events import Events
    from engine.stage.headless import ManualClock, NoLights, run_headless
    from engine.stage.speaker import Silence
    from engine.stage.stage import Stage

    clock = ManualClock()
    write = repetition_json if options.json else repetition_text
    printer = _Printer(write, {level.id: level for level in demonstration.levels})
    with demonstration.history() as history, closing(Events(options.events, clock)) as events_file:
        stage = Stage(NoLights(), Silence(), events_file, (printer,))
        run_headless(watch(demonstration, clock, stage, history, local_now), clock)
    return 0


class _Printer:
    """Listener that prints a line for each repetition of the demo as soon as it is stored."""

    def __init__(
        self, write: Callable[[Level, int, Record], str], levels: Mapping[str, Level]
    ) -> None:
        self._write = write
        self._levels = levels

    def on_menu(self) -> None:
        """Print nothing: only records are printed."""

    def on_task(self, task: Task) -> None:
        """Print nothing: only records are printed."""

    def on_transition(self, transition: Transition) -> None:
        """Print nothing: only records are printed."""

    def on_record(self, place: int, record: Record) -> None:
        """Print the record of a repetition as one line."""
        level = self._levels[record.drawn or record.level]
        say(f"{self._write(level, place, record)}\n")


def repetition_json(_: Level, place: int, record: Record) -> str:
    """A repetition as one line of JSON, with its measures by name."""
    verdict = record.verdict
    line = {
        "rep": place,
        "level": record.level,
        "kind": record.kind,
        **({"drawn": record.drawn} if record.drawn else {}),
        "target": record.target,
        "score": verdict.score,
        "clean": verdict.clean,
        "reason": verdict.reason.value,
        "over": list(verdict.over),
        **verdict.measures,
        **(asdict(record.sampling) if record.sampling else {}),
    }
    return json.dumps({name: _rounded(value) for name, value in line.items()}, allow_nan=False)


def _rounded(value: object) -> object:
    """Value with a float rounded to DIGITS significant digits."""
    return float(f"{value:.{DIGITS}g}") if isinstance(value, float) else value


def repetition_text(level: Level, place: int, record: Record) -> str:
    """A repetition as one line of text."""
    verdict = record.verdict
    points = f"{verdict.points:>4}"
    sentence = level.kind.sentence(level, verdict)
    return f"{place:3d}  {points}  {verdict.reason.value:<11}  {sentence}"
