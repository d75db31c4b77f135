"""The commands `stillfoot five`, `warm-up` and `plan`: straight into practice, or what it holds."""

from __future__ import annotations

import argparse
import json
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from drills.trace import Pedal
from engine.commands.levels import pedals_of
from engine.commands.options import data_folder, local_now, within
from engine.commands.play import run_play
from engine.console import one_line, say
from engine.ladder.level_files import OWN, SHIPPED, load_band, load_levels
from engine.practice.results import LONGEST
from engine.stage.sdl_setup import give_hints
from engine.store import open_history
from engine.store.opening import is_new

if TYPE_CHECKING:
    from engine.five.forecast import Forecast
    from engine.five.planner import Planned
    from engine.five.player_state import PlayerState

USUAL = 5.0
"""min, how long five minutes are."""
USUAL_PEDALS = frozenset({Pedal.BRAKE, Pedal.THROTTLE})
"""Those that are planned for where none were set up yet."""
LEAST, MOST = 1.0, LONGEST
"""min, what may be asked for."""


def add_minutes(parser: argparse.ArgumentParser) -> None:
    """Give the option of a length to a parser."""
    parser.add_argument(
        "--minutes",
        metavar="N",
        type=within(float, LEAST, MOST),
        default=USUAL,
        help=f"how long it is to be ({LEAST:g} to {MOST:g}, else {USUAL:g})",
    )


def add_plan(parser: argparse.ArgumentParser) -> None:
    """Give the options of `plan` to a parser."""
    add_minutes(parser)
    parser.add_argument("--json", action="store_true", help="one JSON object a repetition")


def run_five(options: argparse.Namespace) -> int:
    """Play the five minutes; the exit code. Raises Refusal."""
    from engine.game.entries import FIVE

    return run_play(options, FIVE, options.minutes)


def run_warm_up(options: argparse.Namespace) -> int:
    """Play a warm-up; the exit code. Raises Refusal."""
    from engine.game.entries import WARM_UP

    return run_play(options, WARM_UP)


def run_plan(options: argparse.Namespace) -> int:
    """Print what the next five minutes will be; the exit code. Raises Refusal."""
    from engine.five.planner import plan

    give_hints()
    coming = _next(data_folder(options), options.minutes, local_now())
    planned = plan(coming.player, coming.session)
    say(as_json(planned, coming.player) if options.json else as_text(planned, coming))
    return 0


def as_json(planned: list[Planned], player: PlayerState) -> str:
    """A plan, each repetition as one line of JSON."""
    lines = [
        {
            "day": player.day.isoformat(),
            "number": number,
            "why": one.why.value,
            "level": one.level.id,
            "kind": one.level.kind.name,
            "seconds": round(player.pace.of(one.level), 1),
        }
        for number, one in enumerate(planned, start=1)
    ]
    return "".join(f"{json.dumps(line, allow_nan=False)}\n" for line in lines)


def as_text(planned: list[Planned], coming: Forecast) -> str:
    """A plan for a person."""
    takes = sum(coming.player.pace.of(one.level) for one in planned)
    when = "Left of today" if coming.session.results else "Today"
    if coming.done:
        when = "Done for today. Tomorrow"
    head = f"{when}: {len(planned)} repetitions, about {takes / 60:.1f} minutes"
    whys = max((len(one.why) for one in planned), default=0)
    ids = max((len(one.level.id) for one in planned), default=0)
    return f"{head}\n" + "".join(
        one_line(f"{number:4}  {one.why:<{whys}}  {one.level.id:<{ids}}  {one.level.title}") + "\n"
        for number, one in enumerate(planned, start=1)
    )


def _next(folder: Path, minutes: float, now: datetime) -> Forecast:
    """The five minutes that come next; nothing is made where there is no history."""
    from engine.five.forecast import Forecast, forecast
    from engine.five.planner import seed_of
    from engine.five.player_state import PlayerState
    from engine.practice.results import Session, SessionKind

    levels, band = load_levels([SHIPPED, folder / OWN]), load_band()
    if is_new(folder):
        today = now.date()
        new = Session(0, SessionKind.FIVE, now, minutes, seed_of(today))
        return Forecast(PlayerState(today, levels, band=band, pedals=USUAL_PEDALS), new)
    with open_history(folder, levels) as history:
        there = pedals_of(history, USUAL_PEDALS)
        return forecast(history, levels, band, there, now, minutes)
