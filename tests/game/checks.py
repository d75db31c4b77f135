"""What must be true of five minutes that were played; each check lists what is not."""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise, takewhile

from drills.level import Aid
from drills.phases import OVER
from drills.trace import Pedal
from engine.five.day_summary import NAMES
from engine.five.pace import pace_of
from engine.five.planner import BAND_BLIPS, DARK, LATE, Planned, following, seed_of
from engine.five.player_history import RECENT, player_state_of
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from engine.practice.results import Purpose
from engine.store import open_history
from tests.game.session_run import KILLED, Sat, Told

Check = Callable[[Sat], Iterator[str]]
ON_TIME = 15.0  # s
LOOKS_BACK = {"reveal", "summary", "guess"}  # what shows how a repetition went
TWO = frozenset({Pedal.BRAKE, Pedal.THROTTLE})


def _it_ended_well(sat: Sat) -> Iterator[str]:
    """the program ended by itself and well, but where it was killed"""
    if [*sat.codes] != [*[KILLED] * (len(sat.codes) - 1), 0] or sat.said:
        yield f"it returned {sat.codes}, and said: {sat.said}"


def _straight_in(sat: Sat) -> Iterator[str]:
    """each start came straight to a repetition, and the last one to the end of the day"""
    for events in sat.starts:
        if (first := next(_screens(events), "nothing")) != "repetition":
            yield f"it began with {first}"
    if (last := [*_screens(sat.events)][-1]) != "day end":
        yield f"it ended with {last}"


def _one_sitting(sat: Sat) -> Iterator[str]:
    """there is one sitting of the day, and it is over"""
    if len(sat.sessions) != 1:
        yield f"there are {len(sat.sessions)}"
    if not sat.session.over:
        yield "it is not over"
    if sat.session.seed != seed_of(sat.day):
        yield f"its seed is {sat.session.seed}"


def _as_the_planner_says(sat: Sat) -> Iterator[str]:
    """each repetition is the one that the planner says after those before it, and then none"""
    results = sat.session.results
    for number, planned in enumerate(replayed(sat)):
        played = results[number] if number < len(results) else None
        asked = None if planned is None else (planned.level.id, planned.why)
        found = None if played is None else (played.level, played.why)
        if asked != found:
            yield f"{number + 1}: planned {asked}, played {found}"


def _as_foretold(sat: Sat) -> Iterator[str]:
    """`stillfoot plan` told what came until one was not clean, but for what hangs on its time"""
    clean = [*takewhile(lambda one: one.counts and one.clean, sat.session.results)]
    until = sat.session.results[: len(clean) + 1]
    told = _untimed([(Purpose(one["why"]), one["level"]) for one in sat.planned])
    played = _untimed([(one.why, one.level) for one in until])
    for number, (foretold, found) in enumerate(zip(told, played, strict=False), start=1):
        if foretold != found:
            yield f"{number}: foretold {foretold}, played {found}"


def _on_time(sat: Sat) -> Iterator[str]:
    """it took its time within 15 s"""
    if abs(sat.session.left) > ON_TIME:
        yield f"{sat.session.left:.1f} s were left"


def _the_clock_agrees(sat: Sat) -> Iterator[str]:
    """the time it took is the time that went by, but for choices and what was killed"""
    took = sum(one.took or 0.0 for one in sat.session.results)
    most = sum(_went_by(events) for events in sat.starts)
    least = sum(_went_by(events, told_only=True) for events in sat.starts)
    if not least - 1 <= took <= most + 1:
        yield f"it took {took:.1f} s, and {least:.1f} to {most:.1f} s went by"


def _the_last_in_the_dark(sat: Sat) -> Iterator[str]:
    """the last three came with nothing shown, before and after, or as many as there was time for"""
    dark = [one.why is Purpose.DARK for one in sat.counting]
    if not all(dark[-max(sum(dark), 1) :]):
        yield f"in the dark were {dark}"
    if sum(dark) < DARK and sat.session.left > LATE:
        yield f"{sum(dark)} in the dark, and {sat.session.left:.1f} s left"
    for asked, void, after in _in_the_dark(sat.events):
        if asked["aid"] != Aid.NONE:
            yield f"repetition {asked['rep']} had the aid {asked['aid']}"
        if not void and LOOKS_BACK.intersection(after):
            yield f"after repetition {asked['rep']} came {after}"


def _nothing_lost(sat: Sat) -> Iterator[str]:
    """each repetition that was told of is kept once, with its outcome"""
    told = [(one["level"], one["clean"]) for one in sat.events if one["event"] == "verdict"]
    numbers = [one["id"] for one in sat.events if one["event"] == "verdict"]
    kept = [(one.level, one.clean) for one in sat.session.results]
    # The one that is kept and not told of yet was under way when the program was killed.
    first = len(told_before := [one for one in sat.starts[0] if one["event"] == "verdict"])
    if len(sat.starts) > 1 and len(kept) == len(told) + 1:
        told.insert(first, kept[first])
        numbers.insert(first, told_before[-1]["id"] + 1 if told_before else numbers[0] - 1)
    if told != kept:
        yield f"told {told}, kept {kept}"
    if numbers != [*range(numbers[0], numbers[0] + len(numbers))]:
        yield f"their numbers are {numbers}"


def _steadiness_once(sat: Sat) -> Iterator[str]:
    """there are no more blips for the steadiness band than a day has"""
    blips = sum(one.why is Purpose.BAND for one in sat.counting)
    if not 0 < blips <= BAND_BLIPS:
        yield f"there are {blips}"


def _the_end_agrees(sat: Sat) -> Iterator[str]:
    """the end of the day counts what the history has"""
    end = [one for one in sat.events if one["event"] == "screen"][-1]
    parts = Counter(one.why for one in sat.session.results)
    shown = {name.partition(":")[0]: count for name, count in end["parts"]}
    if shown != {NAMES[why]: count for why, count in parts.items()}:
        yield f"parts {shown}, and kept are {parts}"
    counts = (sum(one.clean for one in sat.counting), len(sat.counting))
    if (end["clean"], end["counted"]) != counts:
        yield f"{end['clean']} clean of {end['counted']}, and kept are {counts}"
    if end["early"]:
        yield "it says that it was left early"


CHECKS: Sequence[Check] = (
    _it_ended_well,
    _straight_in,
    _one_sitting,
    _as_the_planner_says,
    _as_foretold,
    _on_time,
    _the_clock_agrees,
    _the_last_in_the_dark,
    _nothing_lost,
    _steadiness_once,
    _the_end_agrees,
)


def replayed(sat: Sat) -> Iterator[Planned | None]:
    """What the planner says before each repetition and after the last, given those before it.

    It is told of no more than was in the history before, and of what was played since.
    """
    levels, band = load_levels([SHIPPED]), load_band()
    with open_history(sat.before, []) as history:
        known = player_state_of(history, levels, band, TWO, sat.day)
    results = sat.session.results
    for number in range(len(results) + 1):
        yield following(known, replace(sat.session, results=results[:number]))
        if number < len(results):
            known = known.after(results[number])
            recent = known.recent[-RECENT:]
            known = replace(known, recent=recent, pace=pace_of(recent))


def _screens(events: Sequence[Told]) -> Iterator[str]:
    return (event["name"] for event in events if event["event"] == "screen")


def _untimed(asked: Sequence[tuple[Purpose, str]]) -> list[tuple[Purpose, str]]:
    """What does not hang on how long others took.

    It is that which says how many blips track the steadiness band and so which level is mixed in
    by lot after them, what is short enough when time runs out, and when the last few begin.
    """
    lit = takewhile(lambda one: one[0] is not Purpose.DARK, asked)
    levels = [(why, "" if why is Purpose.MIX else level) for why, level in lit]
    while levels and levels[-1][0] is Purpose.MIX:
        levels.pop()
    once = [one for one in levels if one[0] is Purpose.BAND][:1]
    first = levels.index(once[0]) if once else len(levels)
    return [one for place, one in enumerate(levels) if one[0] is not Purpose.BAND or place == first]


def _went_by(events: Sequence[Told], *, told_only: bool = False) -> float:
    """Seconds from the first repetition of a start to the end of the day, or as far as it came.

    `told_only`: no more than to the end of the last repetition that got a verdict, without the
    screens with choices. What is judged and written after that end is not timed.
    """
    begun = next(event["t"] for event in events if event.get("name") == "repetition")
    shown = [event for event in events if event["event"] == "screen" or _is_over(event)]
    if not told_only:
        ends = [event["t"] for event in shown if event.get("name") == "day end"]
        return float((ends or [events[-1]["t"]])[0] - begun)
    told = [place for place, event in enumerate(events) if event["event"] == "verdict"]
    over = filter(_is_over, events[: told[-1]] if told else ())
    last = max((event["t"] for event in over), default=begun)
    choices = sum(
        after["t"] - before["t"]
        for before, after in pairwise(shown)
        if "choices" in before and after["t"] <= last
    )
    return float(last - begun - choices)


def _is_over(event: Told) -> bool:
    """Whether a repetition ended."""
    return event.get("phase") in OVER


def _in_the_dark(events: Sequence[Told]) -> Iterator[tuple[Told, bool, list[str]]]:
    """Each of the last few as it was asked, whether it was void, and the screens after it."""
    asked: Told | None = None
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
