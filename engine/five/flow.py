"""Flows of the five minutes and of the warm-up, from the choice on home to the end screen."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from drills.level import Level
from engine.drill.attempt import Setting
from engine.drill.moment_rules import Achievement
from engine.drill.moments import celebrate
from engine.five import counting_plan, usual_foot, warm_up_plan
from engine.five.coach_flow import halved_achievements, news_now, tell
from engine.five.coach_news import News
from engine.five.counting_plan import counting_rule
from engine.five.counting_screens import CountingEnd, CountingOffer, WarmUpChoice
from engine.five.counting_today import counting_today
from engine.five.day_best import day_achievements
from engine.five.day_end import DayEnd, Done
from engine.five.day_summary import day_of
from engine.five.day_views import climbed, views_of
from engine.five.planner import following, next_to_learn
from engine.five.player_history import (
    blips_so_far,
    player_state_of,
    steadiness_blips,
    steadiness_view,
)
from engine.five.saved import has_ended
from engine.five.saved_focus import refresh_focus
from engine.five.session import SessionLog, SessionRules, run_session
from engine.five.warm_up_screen import WarmUpScreen
from engine.five.warm_up_words import WarmUpWords, measured_words, unmeasured_words, waiting_words
from engine.kit.flow import show
from engine.practice.results import MINUTES, Purpose, SessionKind, TrialDay
from engine.practice.retention import CheckOutcome
from engine.stage.earcon import Earcon
from engine.stage.scene import Flow
from engine.store import History, ledger
from engine.store.counting import counting_cost_now
from engine.store.remeasure import remeasuring
from engine.store.retention import all_retention


def five_minutes(
    setting: Setting,
    history: History,
    band: Level,
    minutes: float = MINUTES,
    trial_day: TrialDay | None = None,
) -> Flow[Done]:
    """Play today's five minutes or the rest of them, and show the end screen.

    The steadiness blips are stored as those of `trial_day` too, if it is given. Raises StoreError.
    """
    began = setting.now().date()
    stood = ledger.streaks(history, began)
    days_before = ledger.streaks(history, began - timedelta(days=1)).days_streak
    is_first = not has_ended(history, SessionKind.FIVE, began)
    if is_first:
        # A set played earlier today, or minutes that were left, told nothing of the row of days.
        stood = replace(stood, best_days_streak=ledger.best_days_before(history, began))
    before = climbed(setting, history, band)
    refresh_focus(history, began)
    ran = yield from run_session(
        SessionRules(SessionKind.FIVE, minutes, following, trial_day), setting, history, band
    )
    refresh_focus(history, setting.now().date())
    if ran.home or not ran.session.results:
        yield from _celebrate(ran.achieved, ran, setting)
        return Done.HOME
    today = setting.now().date()
    steadiness = steadiness_view(history, band, today)
    day = day_of(ran, stood, ledger.streaks(history, today), steadiness)
    views = views_of(ran, before, setting, history, band)
    paired = {level.id for level in setting.levels if level.kind.in_pairs}
    counts = any(result.level in paired for result in ran.session.results)
    cost = counting_cost_now(history) if counts else None
    day = replace(day, blips=blips_so_far(history, band), cost=cost, views=views)
    achieved = day_achievements(day, ran.achieved, days_before, is_first=is_first)
    # A player in a trial by days is not told what might change the foot half way.
    news = News() if day.is_early or trial_day is not None else news_now(history)
    achieved += halved_achievements(news)
    yield from _celebrate(achieved, ran, setting)
    yield from tell(news, setting, history)
    if not achieved and views.step is not None:
        setting.stage.speaker.play(Earcon.BEST)
    elif not achieved and not day.is_early:
        setting.stage.speaker.play(Earcon.DAY_DONE)
    return (yield from show(DayEnd(day), setting.rig, setting.stage))


def warm_up(setting: Setting, history: History, band: Level) -> Flow[Done]:
    """Play a warm-up, and say whether today's foot is the usual one. Raises StoreError.

    Once a week a session of counting is offered in its stead.
    """
    there, today = setting.there, setting.now().date()
    player = player_state_of(history, setting.levels, band, there, today)
    level = counting_today(history, player)
    if level is not None:
        match (yield from show(CountingOffer(level), setting.rig, setting.stage)):
            case WarmUpChoice.COUNTING:
                return (yield from _counting(setting, history, band, level))
            case WarmUpChoice.HOME:
                return Done.HOME
    return (yield from _usual_warm_up(setting, history, band))


def _counting(setting: Setting, history: History, band: Level, level: Level) -> Flow[Done]:
    """Play a session of counting on a level, and say what counting costs. Raises StoreError."""
    rules = SessionRules(SessionKind.COUNTING, counting_plan.MINUTES, counting_rule(level))
    ran = yield from run_session(rules, setting, history, band)
    yield from _celebrate(ran.achieved, ran, setting)
    if ran.home or not ran.session.results:
        return Done.HOME
    screen = CountingEnd(counting_cost_now(history), setting.now().date())
    return (yield from show(screen, setting.rig, setting.stage))


def _usual_warm_up(setting: Setting, history: History, band: Level) -> Flow[Done]:
    """Play the usual warm-up, and say whether today's foot is the usual one. Raises StoreError."""
    rules = SessionRules(SessionKind.WARM_UP, warm_up_plan.MINUTES, warm_up_plan.warming)
    before = all_retention(history)
    ran = yield from run_session(rules, setting, history, band)
    yield from _celebrate(ran.achieved, ran, setting)
    if ran.home or not ran.session.results:
        return Done.HOME
    words = warm_up_words(ran, history, band)
    retained = [
        level.title
        for level in setting.levels
        if (now := ran.now.retention.get(level.id)) is not None
        and now != before.get(level.id)
        and now.outcome_on(ran.now.day) is CheckOutcome.RETAINED
    ]
    if retained:
        line = f"Retained: {', '.join(retained)}."
        words = replace(words, lines=(*words.lines, line))
    screen = WarmUpScreen(words, ran.pictures.of(band))
    return (yield from show(screen, setting.rig, setting.stage))


def _celebrate(achieved: Sequence[Achievement], ran: SessionLog, setting: Setting) -> Flow[bool]:
    """Show a moment of what was achieved by the end of a session, if anything was."""
    return (yield from celebrate(achieved, setting, lambda: next_to_learn(ran.now)))


def warm_up_words(ran: SessionLog, history: History, band: Level) -> WarmUpWords:
    """Words for the end of a warm-up, comparing it with earlier days. Raises StoreError.

    Deviations are scaled to one size of blip; a day whose blips were of another size, from before
    one was asked, may have too few that can be compared.
    """
    waits = remeasuring(history)
    if waits is not None:
        return waiting_words(waits)
    blips = steadiness_blips(history, band, Purpose.WARM, ran.session.number)
    deviations = [blip.scaled for blip in blips]
    mean = usual_foot.warm_up_value(deviations[: usual_foot.BLIPS])
    if mean is None:
        return unmeasured_words(ran.now.can_blip)
    today = ran.session.began.date()
    earlier = usual_foot.earlier_days(_daily_values(history, band), today)
    return measured_words(mean, deviations, earlier)


def _daily_values(history: History, band: Level) -> list[tuple[date, float]]:
    """Each day with a whole warm-up, paired with its mean scaled deviation in points."""
    days: dict[date, list[float]] = defaultdict(list)
    for blip in steadiness_blips(history, band, Purpose.WARM):
        days[blip.day].append(blip.scaled)
    return [
        (day, value)
        for day, deviations in days.items()
        if (value := usual_foot.warm_up_value(deviations[: usual_foot.BLIPS])) is not None
    ]
