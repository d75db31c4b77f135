"""The command `stillfoot pedals`: leads through the health check, or shows that of a file."""

from __future__ import annotations

import argparse
import json
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from drills.health.luck import hardware_of, luck
from drills.health.pedal import PedalHealth, RawCounts, measure_health
from drills.health.raw_file import RawFileError, read_raw, written
from drills.level import Level
from drills.refusal import Refusal
from drills.text import TextError, decoded
from drills.trace import Sample, nanoseconds
from engine.commands.data import all_levels, change_data
from engine.commands.new_file import new_file
from engine.commands.options import UsageError, data_folder, path_of
from engine.commands.record import bind_pedals, rigs_set_up
from engine.commands.stopping import Stopping
from engine.console import one_line, say, warn
from engine.errors import reason_of

if TYPE_CHECKING:
    from engine.pedals.bound import Binding, BoundButton
    from engine.setup.rigs import NamedRig

PERIOD = nanoseconds(0.001)
"""Time between two reads of the pedals, in ns: as often as any pedals report."""
DIGITS = 6
"""Significant digits of each number printed as JSON."""
NOTHING = 1e-9
"""Size under which a number is a remainder of reckoning, in any unit of the health of pedals."""
STOPPED = "stopped: nothing was measured"


class PedalsError(Refusal):
    """The pedals cannot be checked; the text is one line for the user."""


def add_pedals(parser: argparse.ArgumentParser) -> None:
    """Add the options of `pedals` to a parser."""
    parser.add_argument("--json", action="store_true", help="one JSON object in place of words")
    group = parser.add_mutually_exclusive_group()
    group.add_argument(
        "--save",
        metavar="FILE",
        type=path_of("a file"),
        help="save the raw counts to a new file, for a report",
    )
    group.add_argument(
        "--replay",
        metavar="FILE",
        type=path_of("a file"),
        help="show the health in a file that --save wrote",
    )


def run_pedals(options: argparse.Namespace) -> int:
    """Check the pedals, or a file of them; return the exit code. Raises Refusal."""
    folder = data_folder(options)
    levels = all_levels(folder)
    if options.replay is not None:
        _tell(measure_health(_replayed(options.replay)), levels, as_json=options.json)
        return 0
    rigs = rigs_set_up(folder)
    lead = warn if options.json else _say_line
    with new_file(options.save) as write:
        led = _led(rigs, lead)
        if isinstance(led, int):
            warn(STOPPED)
            return led
        binding, raw = led
        healths = measure_health(raw)
        write(written(raw, healths))
    _tell(healths, levels, as_json=options.json)
    from engine.setup.health_saved import keep_health

    change_data(folder, lambda history: keep_health(history, binding, healths))
    return 0


def health_json(healths: tuple[PedalHealth, ...], levels: list[Level]) -> str:
    """Health of pedals as one line of JSON: numbers in the units of `PedalHealth`, and words."""
    from engine.setup.health_words import health_words

    hardware, words = hardware_of(healths), health_words(healths, levels)
    data = {
        "pedals": [_pedal_json(health) for health in healths],
        "dip_least": None if hardware is None else _rounded(hardware.dip_least),
        "time_least": None if hardware is None else _rounded(hardware.time_least),
        "partly_luck": sorted(luck(levels, hardware)),
        "says": list(words.lines),
    }
    return f"{json.dumps(data, allow_nan=False)}\n"


def _pedal_json(health: PedalHealth) -> dict[str, Any]:
    timing = health.timing
    shown: dict[str, Any] = {
        name: _rounded(value) for name, value in vars(health).items() if name != "timing"
    }
    for name in ("interval", "p99", "jitter", "late"):
        shown[name] = None if timing is None else _rounded(getattr(timing, name))
    return shown


def _rounded(value: Any) -> Any:
    """A number as it is printed in JSON: a tiny remainder of reckoning is 0."""
    if not isinstance(value, float):
        return value
    return float(f"{value:.{DIGITS}g}") if abs(value) >= NOTHING else 0.0


def _tell(healths: tuple[PedalHealth, ...], levels: list[Level], *, as_json: bool) -> None:
    """Print the health of pedals in words, with the numbers behind them, or as JSON."""
    if as_json:
        say(health_json(healths, levels))
        return
    from engine.setup.health_table import health_table
    from engine.setup.health_words import health_words

    words = health_words(healths, levels)
    say("".join(f"{one_line(line)}\n" for line in [*health_table(healths), "", *words.lines]))


def _shift_line(shift: BoundButton, *, plugged: bool) -> str:
    """The shift button that was set up, and whether it is plugged in, as one line."""
    return f"Shift button: {shift.words}{'' if plugged else ', not plugged in'}."


def _led(rigs: Sequence[NamedRig], lead: Callable[[str], None]) -> tuple[Binding, RawCounts] | int:
    """The pedals that are plugged in, and their raw counts in the course that `lead` tells.

    `rigs` are those that were set up. An exit code if a signal stops it. Raises PedalsError,
    RecordError.
    """
    from engine.pedals.rig import Rig
    from engine.pedals.sdl import Devices
    from engine.setup.health_course import CourseReader, line_of
    from engine.setup.health_saved import pedals_of
    from engine.stage.polling import joysticks_without_window, poll_without_window

    told, gone = None, False

    def look(sample: Sample | None, _: int) -> None:
        nonlocal told, gone
        if sample is None:
            gone = True
            return
        reader.take(sample)
        if reader.part is not told and not reader.is_over:
            told = reader.part
            lead(line_of(told))

    def cut() -> None:
        nonlocal gone
        gone = True

    with Stopping() as stopping, joysticks_without_window():
        rig = Rig(time.perf_counter_ns, Devices(choosing=False))
        binding = bind_pedals(rig, rigs).binding
        if binding.shift is not None:
            lead(_shift_line(binding.shift, plugged=rig.has_shift))
        reader = CourseReader(pedals_of(binding))
        poll_without_window(
            rig, look, cut, lambda: stopping.asked or gone or reader.is_over, PERIOD
        )
        if stopping.asked:
            return stopping.code
    if gone:
        raise PedalsError(
            "pedals: expected them to stay plugged in for half a minute, found them unplugged"
        )
    if reader.raw is None:
        raise PedalsError("pedals: expected 10 reads a second or more, found fewer")
    return binding, reader.raw


def _replayed(path: Path) -> RawCounts:
    """Raw counts in a file that --save wrote. Raises UsageError."""
    try:
        return read_raw(decoded(path.read_bytes()))
    except OSError as error:
        found = reason_of(error)
        raise UsageError(f"{path}: expected a file that can be read, found: {found}") from error
    except (RawFileError, TextError) as error:
        raise UsageError(one_line(f"{path}: {error}")) from error


def _say_line(text: str) -> None:
    say(f"{text}\n")
