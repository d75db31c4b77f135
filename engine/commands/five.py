"""The commands `stillfoot five`, `warm-up` and `plan`: start a session, or print its plan."""

from __future__ import annotations

import argparse
import json
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from drills.trace import Pedal
from engine.commands.data import all_levels, read_data
from engine.commands.levels import pedals_of
from engine.commands.options import data_folder, local_now, within
from engine.commands.play import run_play
from engine.console import one_line, say
from engine.ladder.level_files import load_band
from engine.practice.passes import SOUND
from engine.practice.results import LONGEST
from engine.store import History
from engine.store.opening import is_new

if TYPE_CHECKING:
    from engine.five.forecast import Forecast
    from engine.five.planner import Planned
    from engine.five.player_state import PlayerState

USUAL = 5.0
"""Length of a session if none is asked for, in min."""
USUAL_PEDALS = frozenset({Pedal.BRAKE, Pedal.THROTTLE, SOUND})
"""Pedals, and sound, that the plan of a session assumes before any are set up."""
LEAST, MOST = 1.0, LONGEST
"""Shortest and longest session that may be asked for, in min."""
WARM_UP_COUNTS = "warm-up: does it go by itself?"
"""What the plan says of a warm-up that is a session of counting."""


def add_minutes(parser: argparse.ArgumentParser) -> None:
    """Add the option for the length of a session to a parser."""
    parser.add_argument(
        "--minutes",
        metavar="N",
        type=within(float, LEAST, MOST),
        default=USUAL,
        help=f"length of the session ({LEAST:g} to {MOST:g}, default {USUAL:g})",
    )


def add_plan(parser: argparse.ArgumentParser) -> None:
    """Add the options of `plan` to a parser."""
    add_minutes(parser)
    parser.add_argument("--json", action="store_true", help="one JSON object per repetition")


def run_five(options: argparse.Namespace) -> int:
    """Play a session of five minutes, or as many as asked; return the exit code. Raises Refusal."""
    from engine.game.entries import FIVE

    return run_play(options, FIVE, options.minutes)


def run_warm_up(options: argparse.Namespace) -> int:
    """Play a warm-up session; return the exit code. Raises Refusal."""
    from engine.game.entries import WARM_UP

    return run_play(options, WARM_UP)


def run_plan(options: argparse.Namespace) -> int:
    """Print the plan of the next session; return the exit code. Raises Refusal."""
    from engine.five.planner import plan

    coming, warm_up_counts = _next_session(data_folder(options), options.minutes, local_now())
    planned = plan(coming.player, coming.session)
    if options.json:
        say(plan_json(planned, coming.player))
    else:
        say(plan_text(planned, coming, warm_up_counts=warm_up_counts))
    return 0


def plan_json(planned: list[Planned], player: PlayerState) -> str:
    """Plan of a session as JSON, one line a repetition."""
    from engine.five.reasons import reason_of

    lines = [
        {
            "day": player.day.isoformat(),
            "number": number,
            "why": slot.why.words,
            "level": slot.level.id,
            "kind": slot.level.kind.name,
            "seconds": round(player.pace.of(slot.level), 1),
            "reason": reason_of(slot, player),
        }
        for number, slot in enumerate(planned, start=1)
    ]
    return "".join(f"{json.dumps(line, allow_nan=False)}\n" for line in lines)


def plan_text(planned: list[Planned], coming: Forecast, *, warm_up_counts: bool = False) -> str:
    """Plan of a session as text; `warm_up_counts`: the next warm-up is a session of counting."""
    from engine.five.plan_words import due_words
    from engine.five.planner import checks_in
    from engine.five.reasons import reason_of

    takes = sum(coming.player.pace.of(slot.level) for slot in planned)
    when = "Left of today" if coming.session.results else "Today"
    if coming.done:
        when = "Done for today. Tomorrow"
    head = f"{when}: {len(planned)} repetitions, about {takes / 60:.1f} minutes"
    if coming.player.due:
        due = due_words(checks_in(planned), len(coming.player.due))
        head += f", check-ups: {due}"
    reasons = [reason_of(slot, coming.player) for slot in planned]
    widest = max(map(len, reasons), default=0)
    ids = max((len(slot.level.id) for slot in planned), default=0)
    lines = [f"{head}\n"]
    for number, (slot, reason) in enumerate(zip(planned, reasons, strict=True), start=1):
        level = slot.level
        title = "" if reason.endswith(level.title) else level.title
        line = f"{number:4}  {reason:<{widest}}  {level.id:<{ids}}  {title}"
        lines.append(one_line(line.rstrip()) + "\n")
    if warm_up_counts:
        lines.append(f"{'Tomorrow' if coming.done else 'Today'}'s {WARM_UP_COUNTS}\n")
    return "".join(lines)


def _next_session(folder: Path, minutes: float, now: datetime) -> tuple[Forecast, bool]:
    """Forecast of the next session, and whether the warm-up of its day is a session of counting.

    No history is created if there is none. Raises StoreError, LevelError.
    """
    from engine.five.counting_today import counting_today
    from engine.five.forecast import Forecast, forecast
    from engine.five.planner import seed_of
    from engine.five.player_state import PlayerState
    from engine.practice.results import Session, SessionKind

    levels, band = all_levels(folder), load_band()
    if is_new(folder):
        today = now.date()
        new = Session(0, SessionKind.FIVE, now, minutes, seed_of(today))
        return Forecast(PlayerState(today, levels, band=band, pedals=USUAL_PEDALS), new), False

    def use(history: History) -> tuple[Forecast, bool]:
        there = pedals_of(history, USUAL_PEDALS)
        coming = forecast(history, levels, band, there, now, minutes)
        return coming, counting_today(history, coming.player) is not None

    return read_data(folder, levels, use)
