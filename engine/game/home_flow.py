"""Home, and the way from it to every room and back.

A room is loaded when it is entered: home comes without those that are not, and nothing is loaded
while a repetition is played.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from drills.level import Level
from engine.drill.attempt import Now, Setting
from engine.five.forecast import foretold
from engine.five.planner import works_on
from engine.five.player_history import band_shown, blips_of, known_of
from engine.game.flow import Offer
from engine.game.home import Go, Home
from engine.game.sound_and_light import loudness, signals_wanted
from engine.kit.flow import show
from engine.ladder.ladder import Flight, climb
from engine.pedals.rig import Rig
from engine.practice.passes import next_level
from engine.practice.results import Why
from engine.setup.flow import bind_saved, find_pedals, set_up
from engine.setup.no_pedals import Instead
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History
from engine.trial.status import in_short, under_way


def at_home(
    rig: Rig, stage: Stage, history: History, offer: Offer, rng: np.random.Generator, now: Now
) -> Flow[None]:
    """Show home and go where the player wants to, until they leave; find pedals first."""
    straight = offer.straight
    while True:
        if rig.pedals is None:
            match (yield from find_pedals(rig, stage, history)):
                case Instead.DEMO:
                    yield from _watch(rig, stage, offer, now)
                    continue
                case Instead():
                    return
        kept = history if rig.counts else None
        setting = Setting(rig, stage, kept, rng, now, levels=offer.levels)
        went: Level | Go | None = straight if rig.counts else None
        at_once = went is not None
        if went is None:
            went = yield from show(_home(setting, history, offer), rig, stage)
        straight = None
        match went:
            case Level() as level:
                yield from _practise(level, setting)
            case Go.LEVELS:
                chosen = yield from _choose(setting, history, offer)
                if chosen is not None:
                    yield from _practise(chosen, setting)
            case Go.FIVE | Go.WARM_UP:
                if (yield from _by_itself(went, setting, history, offer)):
                    return
            case Go.PLACE:
                from engine.ladder.placing_flow import find_place

                begun = yield from find_place(setting, history, offer.levels)
                if isinstance(begun, Level):
                    yield from _practise(begun, setting)
            case Go.HISTORY:
                from engine.progress.flow import look_back

                yield from look_back(setting, history, offer.band)
            case Go.TRIAL:
                from engine.trial.flow import trials

                yield from trials(setting, offer.band, at_once=at_once)
            case Go.MORE:
                yield from _more(setting, history, offer)
            case Go.AGAIN:
                bind_saved(rig, history)
            case _:
                return


def _by_itself(what: Go, setting: Setting, history: History, offer: Offer) -> Flow[bool]:
    """What needs no further choice, to its end; whether the player leaves the game there."""
    from engine.five.day_end import Done
    from engine.five.flow import five_minutes, warm_up

    if what is Go.WARM_UP:
        done = yield from warm_up(setting, history, offer.band)
    else:
        done = yield from five_minutes(setting, history, offer.band, offer.minutes)
    return done is Done.LEAVE


def _watch(rig: Rig, stage: Stage, offer: Offer, now: Now) -> Flow[None]:
    """Watch the demo, and leave what is played with as it is."""
    from engine.drill.demo import watch_aside

    yield from watch_aside(offer.demo, rig.clock, stage, now)


def _more(setting: Setting, history: History, offer: Offer) -> Flow[None]:
    """What is needed now and then, and then home again."""
    from engine.game.more import More
    from engine.road.screens import WHAT_FOR

    rig, stage = setting.rig, setting.stage
    more = More(
        pedals=_played_with(rig),
        sound=loudness(signals_wanted(history)),
        trial=in_short(history),
        drives=WHAT_FOR if rig.counts else "",
    )
    match (yield from show(more, rig, stage)):
        case Go.PEDALS:
            yield from set_up(rig, stage, history)
        case Go.RECORD:
            from engine.road.flow import record_drive

            yield from record_drive(rig, stage, history, setting.now)
        case Go.SOUND:
            from engine.game.sound_and_light import sound_and_light

            yield from sound_and_light(rig, stage, history)
        case Go.DEMO:
            yield from _watch(rig, stage, offer, setting.now)
        case Go.TRIAL:
            from engine.trial.flow import trials

            yield from trials(setting, offer.band)
        case _:
            bind_saved(rig, history)


def _choose(setting: Setting, history: History, offer: Offer) -> Flow[Level | None]:
    """The level the player chooses, stage by stage where there are several; None for going back."""
    from engine.ladder.level_list import Back, Ladder, LevelList

    rig, stage = setting.rig, setting.stage
    flights = _climb(setting, history, offer.levels)
    walked: Flight | None = None
    chosen: Flight | Back = flights[0]
    following = _following(setting, history, offer)
    while True:
        if len(flights) > 1:
            chosen = yield from show(Ladder(flights, following, rig.there, walked), rig, stage)
        if not isinstance(chosen, Flight):
            return None
        walked = chosen
        screen = LevelList(chosen, flights, rig.there, _due(setting, history))
        level = yield from show(screen, rig, stage)
        if isinstance(level, Level):
            return level
        if len(flights) == 1:
            return None


def _practise(level: Level, setting: Setting) -> Flow[None]:
    """Sets of levels one after another, until the player goes home."""
    from engine.drill.set import end_set, run_set

    following: object = level
    while isinstance(following, Level):
        level = following
        played = yield from run_set(level, setting, level.repetitions)
        if played.home or not played.kept.records:
            return
        next_one = level
        if played.kept.standing.passed:
            next_one = next_level(setting.levels, _open_to(setting), setting.rig.there)
        following = yield from end_set(level, next_one, played.kept, setting)


def _open_to(setting: Setting) -> frozenset[str]:
    """Ids of the levels that count as passed: in a try-out nothing needs passing first."""
    if setting.history is None:
        return frozenset(level.id for level in setting.levels)
    return _done(setting.history)


def _done(history: History) -> frozenset[str]:
    """Ids of the levels passed by playing or by placing."""
    return history.passed() | history.placed()


def _following(setting: Setting, history: History, offer: Offer) -> Level:
    """The level to practise next: what five minutes would work on; in a try-out, the next one."""
    levels, there = offer.levels, setting.rig.there
    if setting.history is None:
        return next_level(levels, _done(history), there)
    return works_on(known_of(history, levels, offer.band, there, setting.now().date()))


def _climb(setting: Setting, history: History, levels: Sequence[Level]) -> tuple[Flight, ...]:
    """The stages as they stand."""
    tryout = setting.history is None
    there = setting.rig.there
    return climb(
        levels,
        history.passed(),
        history.placed(),
        there,
        keeping=history.keepings(),
        is_tryout=tryout,
    )


def _due(setting: Setting, history: History) -> dict[str, str]:
    """When each level is to be shown again, in words, by its id."""
    today, found = setting.now().date(), dict[str, str]()
    for name, keeping in history.keepings().items():
        if setting.history is None or keeping.due is None:
            continue
        days = (keeping.due - today).days
        later = "again tomorrow" if days == 1 else f"again in {days} days"
        found[name] = "again today" if keeping.is_due(today) else later
    return found


def _home(setting: Setting, history: History, offer: Offer) -> Home:
    today, levels, counts = setting.now().date(), offer.levels, setting.rig.counts
    return Home(
        history.standing(today),
        _following(setting, history, offer),
        _climb(setting, history, levels),
        five=foretold(setting, history, offer.band, offer.minutes) if counts else "",
        steadiness=band_shown(history, offer.band, today),
        blips=len(blips_of(history, offer.band, Why.BAND)),
        pedals=_played_with(setting.rig),
        placing=counts and not _done(history),
        trial=under_way(history) if counts else "",
    )


def _played_with(rig: Rig) -> str:
    if not rig.is_feet:
        return "playing with the mouse"
    return "ready" if rig.sample() is not None else "unplugged"
