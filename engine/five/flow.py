"""Five minutes and the warm-up: each begun by one choice, and its end."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from statistics import fmean

from drills.level import Level
from engine.drill.attempt import Setting
from engine.five import usual_foot, warm_up_plan
from engine.five.day_end import DayEnd, Done
from engine.five.day_summary import day_of
from engine.five.planner import following
from engine.five.player_history import steadiness_blips, steadiness_view
from engine.five.session import SessionLog, SessionRules, run_session
from engine.five.warm_up_screen import WarmUpScreen
from engine.five.warm_up_screen import WarmUpWords as Said
from engine.kit.flow import show
from engine.practice.results import MINUTES, Purpose, SessionKind
from engine.practice.retention import CheckOutcome
from engine.stage.scene import Flow
from engine.store import History, ledger
from engine.store.retention import all_retention


def five_minutes(
    setting: Setting, history: History, band: Level, minutes: float = MINUTES
) -> Flow[Done]:
    """Play today's five minutes, or what is left of them, and show the day."""
    stood, passed = ledger.streaks(history, setting.now().date()), ledger.passed(history)
    ran = yield from run_session(
        SessionRules(SessionKind.FIVE, minutes, following), setting, history, band
    )
    if ran.home or not ran.session.results:
        return Done.HOME
    today = setting.now().date()
    steadiness = steadiness_view(history, band, today)
    day = day_of(ran, stood, ledger.streaks(history, today), steadiness)
    if ledger.passed(history) - passed:
        setting.stage.speaker.passed()
    elif day.beaten:
        setting.stage.speaker.best()
    of = _pictured(ran, band)
    screen = DayEnd(day, () if of is None else ran.pictures.of(of), "" if of is None else of.title)
    return (yield from show(screen, setting.rig, setting.stage))


def _pictured(ran: SessionLog, band: Level) -> Level | None:
    """The level whose curves are the picture of a day: the drill of the steadiness band, if any."""
    if ran.pictures.of(band):
        return band
    return next((one for one in ran.now.levels if one.id == ran.pictures.most_of), None)


def warm_up(setting: Setting, history: History, band: Level) -> Flow[Done]:
    """Warm the foot up, and say whether it is the usual one."""
    course = SessionRules(SessionKind.WARM_UP, warm_up_plan.MINUTES, warm_up_plan.warming)
    before = all_retention(history)
    ran = yield from run_session(course, setting, history, band)
    if ran.home or not ran.session.results:
        return Done.HOME
    said = warm_up_words(ran, history, band)
    kept = [
        level.title
        for level in setting.levels
        if (now := ran.now.retention.get(level.id)) is not None
        and now != before.get(level.id)
        and now.shown_on(ran.now.day) is CheckOutcome.KEPT
    ]
    if kept:
        said = replace(said, said=(*said.said, f"Kept on another day: {', '.join(kept)}."))
    return (yield from show(WarmUpScreen(said, ran.pictures.of(band)), setting.rig, setting.stage))


def warm_up_words(ran: SessionLog, history: History, band: Level) -> Said:
    """What a warm-up says of the foot of today. Raises StoreError."""
    blips = steadiness_blips(history, band, Purpose.WARM, ran.session.number)
    now = usual_foot.value_of([blip.deviation for blip in blips[: usual_foot.BLIPS]])
    if now is None:
        return _untold(ran)
    today = ran.session.began.date()
    earlier = usual_foot.earlier_days(_values(history, band), today)
    foot = usual_foot.foot_today(now, earlier)
    return Said(
        HEADINGS[foot.word],
        (*_lines(foot), *_but_for_one(foot, [blip.deviation for blip in blips], earlier)),
        None if foot.usual is None else (foot.usual.low, foot.usual.high),
        now,
        tuple(earlier[-usual_foot.NEWEST :]),
    )


HEADINGS = {
    usual_foot.FootVerdict.NOT_ENOUGH: "Warmed up: not enough days yet",
    usual_foot.FootVerdict.USUAL: "Warmed up: the usual foot",
    usual_foot.FootVerdict.STEADIER: "Warmed up: steadier than usual",
    usual_foot.FootVerdict.LESS_STEADY: "Warmed up: not as steady as usual",
}
"""What the end of a warm-up is headed by."""


def _values(history: History, band: Level) -> list[tuple[date, float]]:
    """points, the value of the first warm-up of each day that had one."""
    days: dict[date, list[float]] = defaultdict(list)
    for blip in steadiness_blips(history, band, Purpose.WARM):
        days[blip.day].append(blip.deviation)
    found = [(day, usual_foot.value_of(some[: usual_foot.BLIPS])) for day, some in days.items()]
    return [(day, value) for day, value in found if value is not None]


def _untold(ran: SessionLog) -> Said:
    """Of a warm-up without all of its blips: it was left, took too long, or not all were blips."""
    if ran.now.can_blip:
        return Said(
            "Warmed up", (f"It takes all {usual_foot.BLIPS} blips to tell how the foot is.",)
        )
    return Said(
        "Warmed up", ("Once a level of blips is passed, it says whether the foot is as usual.",)
    )


def _but_for_one(
    foot: usual_foot.FootToday, deviations: Sequence[float], earlier: Sequence[float]
) -> tuple[str, ...]:
    """Where one blip alone makes a day look unsteady, that is said."""
    if foot.word is not usual_foot.FootVerdict.LESS_STEADY:
        return ()
    eight = sorted(deviations[: usual_foot.BLIPS])
    if usual_foot.foot_today(fmean(eight[:-1]), earlier).word is not usual_foot.FootVerdict.USUAL:
        return ()
    return (f"It was one blip, of {eight[-1]:.0f} points: the other seven were as usual.",)


def _lines(foot: usual_foot.FootToday) -> tuple[str, ...]:
    if foot.usual is None:
        days = "1 more day" if foot.missing == 1 else f"{foot.missing} more days"
        return (f"After {days} with a warm-up it says whether the foot is the usual one.",)
    seen = f"A difference of {foot.usual.sees:.1f} points or more is seen in one warm-up."
    match foot.word:
        case usual_foot.FootVerdict.STEADIER:
            return ("Brake as you trust it: the foot is quieter than on other days.", seen)
        case usual_foot.FootVerdict.LESS_STEADY:
            return ("A few minutes more, or a little less brake: both are fine today.", seen)
        case _:
            return ("Nothing tells it from your other days.", seen)
