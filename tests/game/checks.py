"""Checks of a session that was played: each yields a line for whatever is wrong.

The docstring of a check says what must be true; tests/bench/sessions.py prints it.
"""

import sqlite3
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing
from dataclasses import replace
from itertools import pairwise, takewhile
from pathlib import Path

from drills.fault import Fault
from drills.level import Aid
from drills.phases import OVER
from drills.trace import Pedal
from engine.five.pace import pace_of
from engine.five.plan_words import PARTS
from engine.five.planner import BAND_BLIPS, DARK, LATE, Planned, following, seed_of
from engine.five.player_history import RECENT, player_state_of
from engine.five.reasons import fault_reason
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from engine.practice.results import Purpose
from engine.store import open_history
from engine.store.copies import automatic_copies
from engine.store.history import FILE
from tests.game.session_run import KILLED, LoggedEvent, SessionRun

SAME = {
    "check-ups": "check-up",
    "personal limits": "personal limit",
    "easier first": "new",
    "practice": "new",
    **{fault_reason(fault): "for a fault" for fault in Fault},
}
"""Word for the purpose of a part of the session, by its name at the end of a day where that is
another."""
Check = Callable[[SessionRun], Iterator[str]]
ON_TIME = 15.0
"""Seconds by which a session may end early or late."""
LOOKS_BACK = {"reveal", "summary", "guess"}
"""Screens that show how a repetition went."""
TWO = frozenset({Pedal.BRAKE, Pedal.THROTTLE})
"""Pedals of a player without a clutch."""
PURPOSES = {purpose.words: purpose for purpose in Purpose}
"""Purpose of a repetition by the words that the plan prints for it."""


def _it_ended_well(run: SessionRun) -> Iterator[str]:
    """the program ended by itself with 0 and no output, but where it was killed"""
    if [*run.codes] != [*[KILLED] * (len(run.codes) - 1), 0] or run.output:
        yield f"it returned {run.codes}, and wrote: {run.output}"


def _straight_in(run: SessionRun) -> Iterator[str]:
    """each start began with a repetition, and the last one ended with the end of the day"""
    for events in run.starts:
        if (first := next(_screens(events), "nothing")) != "repetition":
            yield f"it began with {first}"
    if (last := [*_screens(run.events)][-1]) != "day end":
        yield f"it ended with {last}"


def _one_session(run: SessionRun) -> Iterator[str]:
    """the day has one session, and it is over"""
    if len(run.sessions) != 1:
        yield f"sessions: {len(run.sessions)}"
    if not run.session.over:
        yield "it is not over"
    if run.session.seed != seed_of(run.day):
        yield f"its seed is {run.session.seed}"


def _as_the_planner_says(run: SessionRun) -> Iterator[str]:
    """each repetition is the one that the planner gives after those before it, and then none"""
    results = run.session.results
    for number, planned in enumerate(replayed(run)):
        played = results[number] if number < len(results) else None
        expected = None if planned is None else (planned.level.id, planned.why)
        found = None if played is None else (played.level, played.why)
        if expected != found:
            yield f"{number + 1}: planned {expected}, played {found}"


def _as_forecast(run: SessionRun) -> Iterator[str]:
    """`stillfoot plan` forecast the repetitions up to the first that was not clean, time aside"""
    clean = [*takewhile(lambda result: result.counts and result.clean, run.session.results)]
    until = run.session.results[: len(clean) + 1]
    forecast = _untimed([(PURPOSES[row["why"]], row["level"]) for row in run.planned])
    played = _untimed([(result.why, result.level) for result in until])
    for number, (expected, found) in enumerate(zip(forecast, played, strict=False), start=1):
        if expected != found:
            yield f"{number}: forecast {expected}, played {found}"


def _on_time(run: SessionRun) -> Iterator[str]:
    """it lasted as long as it was to, within 15 s"""
    if abs(run.session.left) > ON_TIME:
        yield f"{run.session.left:.1f} s were left"


def _the_clock_agrees(run: SessionRun) -> Iterator[str]:
    """the seconds of its repetitions add up to the time that went by, menus and the kill aside"""
    took = sum(result.took or 0.0 for result in run.session.results)
    most = sum(_elapsed(events) for events in run.starts)
    least = sum(_elapsed(events, judged_only=True) for events in run.starts)
    if not least - 1 <= took <= most + 1:
        yield f"repetitions took {took:.1f} s, and {least:.1f} to {most:.1f} s went by"


def _the_last_without_display(run: SessionRun) -> Iterator[str]:
    """the last three, or as many as time allowed, had no display before, during or after them"""
    # On a busy machine gaps between reads can make each of them void, but not move them.
    dark = [result.why is Purpose.DARK for result in run.session.results]
    if not all(dark[-max(sum(dark), 1) :]):
        yield f"without display were {dark}"
    counting = sum(result.why is Purpose.DARK for result in run.counting)
    if counting < DARK and run.session.left > LATE:
        yield f"{counting} without display, and {run.session.left:.1f} s left"
    for asked, void, after in _without_display(run.events):
        if asked["aid"] != Aid.NONE:
            yield f"repetition {asked['rep']} had the aid {asked['aid']}"
        if not void and LOOKS_BACK.intersection(after):
            yield f"after repetition {asked['rep']} came {after}"


def _nothing_lost(run: SessionRun) -> Iterator[str]:
    """each repetition that got a verdict is stored once, with that verdict"""
    verdicts = [event for event in run.events if event["event"] == "verdict"]
    logged = [(event["level"], event["clean"]) for event in verdicts]
    numbers = [event["id"] for event in verdicts]
    stored = [(result.level, result.clean) for result in run.session.results]
    # The kill may come after a repetition was stored and before its verdict was logged.
    before = [event["id"] for event in run.starts[0] if event["event"] == "verdict"]
    if len(run.starts) > 1 and len(stored) == len(logged) + 1:
        logged.insert(len(before), stored[len(before)])
        numbers.insert(len(before), before[-1] + 1 if before else numbers[0] - 1)
    if logged != stored:
        yield f"logged {logged}, stored {stored}"
    if numbers != [*range(numbers[0], numbers[0] + len(numbers))]:
        yield f"their numbers are {numbers}"


def _steadiness_once(run: SessionRun) -> Iterator[str]:
    """it asks for a blip for the steadiness band, and no more count than a day allows"""
    # On a busy machine each of the few in a short session can be void, or what is due before them
    # be repeated until their time is over.
    asked = sum(result.why is Purpose.BAND for result in run.session.results)
    counting = sum(result.why is Purpose.BAND for result in run.counting)
    lost = sum(result.took or 0.0 for result in run.session.results if not result.counts)
    rows = [row for row in run.planned if row["why"] == Purpose.BAND.words]
    if (not asked and lost < sum(row["seconds"] for row in rows)) or counting > BAND_BLIPS:
        yield f"{asked} are asked, {counting} count, and void ones took {lost:.1f} s"


def _the_end_agrees(run: SessionRun) -> Iterator[str]:
    """the end of the day shows the counts that are in the history"""
    end = [event for event in run.events if event["event"] == "screen"][-1]
    parts = Counter(result.why for result in run.session.results)
    named = [(name.partition(":")[0], count) for name, count in end["parts"]]
    shown = {SAME.get(name, name): count for name, count in named}
    if shown != {PARTS[why]: count for why, count in parts.items()}:
        yield f"parts shown {shown}, stored {parts}"
    counts = (sum(result.clean for result in run.counting), len(run.counting))
    if (end["clean"], end["counted"]) != counts:
        yield f"{end['clean']} clean of {end['counted']}, stored {counts}"
    if end["early"]:
        yield "the end of the day says that it was left early"


def _the_day_is_copied(run: SessionRun) -> Iterator[str]:
    """the history has a copy with every repetition of the day"""
    copies = {copy.day: copy.path for copy in automatic_copies(run.data)}
    if run.day not in copies:
        yield f"copies: {[*map(str, copies)]}"
    elif _count(copies[run.day]) != _count(run.data / FILE):
        yield "the copy has other repetitions than the history"


def _count(file: Path) -> int:
    """Number of repetitions in a history file."""
    with closing(sqlite3.connect(file)) as db:
        return int(db.execute("SELECT count(*) FROM repetition").fetchone()[0])


CHECKS: Sequence[Check] = (
    _it_ended_well,
    _straight_in,
    _one_session,
    _as_the_planner_says,
    _as_forecast,
    _on_time,
    _the_clock_agrees,
    _the_last_without_display,
    _nothing_lost,
    _steadiness_once,
    _the_end_agrees,
    _the_day_is_copied,
)


def replayed(run: SessionRun) -> Iterator[Planned | None]:
    """Plan for each repetition given those before it, and after the last one.

    The planner gets the history from before the session, and the results of the session so far.
    """
    levels, band = load_levels([SHIPPED]), load_band()
    with open_history(run.before, []) as history:
        player = player_state_of(history, levels, band, TWO, run.day)
    results = run.session.results
    for number in range(len(results) + 1):
        yield following(player, replace(run.session, results=results[:number]))
        if number < len(results):
            player = player.after(results[number])
            recent = player.recent[-RECENT:]
            player = replace(player, recent=recent, pace=pace_of(recent))


def _screens(events: Sequence[LoggedEvent]) -> Iterator[str]:
    return (event["name"] for event in events if event["event"] == "screen")


def _untimed(plan: Sequence[tuple[Purpose, str]]) -> list[tuple[Purpose, str]]:
    """Part of a plan that does not depend on how long the repetitions take.

    Left out are the number of steadiness blips, the level drawn for review after them,
    the reviews at the end, and the last few without display.
    """
    lit = takewhile(lambda pair: pair[0] is not Purpose.DARK, plan)
    levels = [(why, "" if why is Purpose.MIX else level) for why, level in lit]
    while levels and levels[-1][0] is Purpose.MIX:
        levels.pop()
    blips = [place for place, (why, _) in enumerate(levels) if why is Purpose.BAND]
    return [pair for place, pair in enumerate(levels) if place not in blips[1:]]


def _elapsed(events: Sequence[LoggedEvent], *, judged_only: bool = False) -> float:
    """Seconds from the first repetition of a start to the end of the day, or to its last event.

    `judged_only`: to the end of the last repetition that got a verdict, screens with choices left
    out. Judging and storing it come after that end and are not timed.
    """
    begun = next(event["t"] for event in events if event.get("name") == "repetition")
    shown = [event for event in events if event["event"] == "screen" or _is_over(event)]
    if not judged_only:
        ends = [event["t"] for event in shown if event.get("name") == "day end"]
        return float((ends or [events[-1]["t"]])[0] - begun)
    verdicts = [place for place, event in enumerate(events) if event["event"] == "verdict"]
    over = filter(_is_over, events[: verdicts[-1]] if verdicts else ())
    last = max((event["t"] for event in over), default=begun)
    choices = sum(
        after["t"] - before["t"]
        for before, after in pairwise(shown)
        if "choices" in before and after["t"] <= last
    )
    return float(last - begun - choices)


def _is_over(event: LoggedEvent) -> bool:
    """Whether an event is the end of a repetition."""
    return event.get("phase") in OVER


def _without_display(
    events: Sequence[LoggedEvent],
) -> Iterator[tuple[LoggedEvent, bool, list[str]]]:
    """Screen of each repetition without display, whether it was void, and the screens after it."""
    asked: LoggedEvent | None = None
    void, after = False, list[str]()
    for event in (*events, {"event": "screen", "name": "repetition", "why": ""}):
        if event.get("name") == "repetition" and event["event"] == "screen":
            if asked is not None:
                yield asked, void, after
            asked, after = (event if event["why"] == Purpose.DARK else None), []
        elif event["event"] == "screen":
            after.append(event["name"])
        elif event["event"] == "verdict":
            void = event["score"] is None
