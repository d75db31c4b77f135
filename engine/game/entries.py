"""Table of the entries of home and More; a new screen is offered by one more entry here.

The flow of an entry is imported when the entry is started, so that home is drawn before the rest
of the game is loaded.
"""

from __future__ import annotations

from engine.drill.lesson_words import HEADING_OF_CHANGE
from engine.game.entry import LEAVE, LOOK_AGAIN, Entry, Game, choices_of
from engine.game.facts import Facts, following_level
from engine.game.home import More
from engine.game.home_words import IN_TRIAL, days_note
from engine.game.signal_words import HEADING as SOUND_AND_LIGHT
from engine.kit.flow import show
from engine.stage.scene import Flow


def _five_words(facts: Facts) -> tuple[str, str] | None:
    if not facts.five:
        return None
    return "Five minutes", IN_TRIAL if facts.by_days else days_note(facts.streaks)


def _five(game: Game) -> Flow[bool]:
    from engine.five.day_end import Done
    from engine.trial.by_days_flow import five_minutes_in_trial

    offer, setting = game.offer, game.setting
    ended = yield from five_minutes_in_trial(setting, game.history, offer.band, offer.minutes)
    return ended is Done.LEAVE


def _warm_up_words(facts: Facts) -> tuple[str, str] | None:
    return ("Warm-up", "") if facts.five else None


def _warm_up(game: Game) -> Flow[bool]:
    from engine.five.day_end import Done
    from engine.five.flow import warm_up

    return (yield from warm_up(game.setting, game.history, game.offer.band)) is Done.LEAVE


def _practise_words(facts: Facts) -> tuple[str, str]:
    return "Practise", "" if facts.five else facts.following.title


def _practise(game: Game) -> Flow[bool]:
    from engine.five.saved_focus import refresh_focus
    from engine.ladder.flow import choose_and_practise

    setting, history = game.setting, game.history
    following = following_level(setting, history, game.offer.band)
    yield from choose_and_practise(setting, history, following)
    refresh_focus(history, setting.now().date())
    return False


def _history(game: Game) -> Flow[bool]:
    from engine.progress.flow import look_back

    yield from look_back(game.setting, game.history, game.offer.band)
    return False


def _trial_words(facts: Facts) -> tuple[str, str]:
    return "Try a foot position", facts.trial or "two ways, compared fairly"


def _trial(game: Game) -> Flow[bool]:
    from engine.trial.flow import trials

    yield from trials(game.setting, game.offer.band)
    return False


def _trial_at_once(game: Game) -> Flow[bool]:
    from engine.trial.flow import trials

    yield from trials(game.setting, game.offer.band, at_once=True)
    return False


def _record_words(facts: Facts) -> tuple[str, str] | None:
    return ("Record a drive", "the same measures, in your simulator") if facts.five else None


def _record(game: Game) -> Flow[bool]:
    from engine.road.flow import record_drive

    setting = game.setting
    yield from record_drive(setting.rig, setting.stage, game.history, setting.now)
    return False


def _pedals(game: Game) -> Flow[bool]:
    from engine.setup.flow import set_up

    yield from set_up(game.setting.rig, game.setting.stage, game.history, game.setting.now)
    return False


def _health_words(facts: Facts) -> tuple[str, str] | None:
    return ("Check the pedals", "what they can show, in 30 seconds") if facts.five else None


def _health(game: Game) -> Flow[bool]:
    from engine.setup.health_flow import check_health

    setting = game.setting
    yield from check_health(setting.rig, setting.stage, game.history, game.offer.levels)
    return False


def _rigs(game: Game) -> Flow[bool]:
    from engine.setup.flow import rigs_of

    setting = game.setting
    yield from rigs_of(setting.rig, setting.stage, game.history, setting.now)
    return False


def _sound(game: Game) -> Flow[bool]:
    from engine.game.sound_and_light import sound_and_light

    yield from sound_and_light(game.setting.rig, game.setting.stage, game.history)
    return False


def _way(game: Game) -> Flow[bool]:
    from engine.drill.lesson_flow import change_way

    yield from change_way(game.setting)
    return False


def _demo(game: Game) -> Flow[bool]:
    from engine.drill.demo import watch_aside

    setting = game.setting
    rig, stage, way = setting.rig, setting.stage, setting.way
    yield from watch_aside(game.offer.demo, rig.clock, stage, setting.now, way)
    return False


def _more(game: Game) -> Flow[bool]:
    from engine.game.facts import facts_of

    chosen = None
    while True:
        facts = facts_of(game.setting, game.history, game.offer)
        screen = More(choices_of(MORE, facts), begin=chosen)
        chosen = yield from show(screen, game.setting.rig, game.setting.stage)
        leaves = yield from chosen.start(game)
        if leaves or chosen not in LEAD_BACK:
            return leaves


FIVE = Entry(_five_words, _five)
"""Home's entry for the daily session of five minutes."""
WARM_UP = Entry(_warm_up_words, _warm_up)
"""Home's entry for a warm-up before driving."""
TRIAL_AT_ONCE = Entry(_trial_words, _trial_at_once)
"""Entry that begins or continues a trial without asking, for the command `stillfoot trial`."""
SOUND = Entry(lambda facts: (SOUND_AND_LIGHT, facts.sound), _sound)
"""More's entry for sound, light and motion."""
WAY = Entry(lambda facts: (HEADING_OF_CHANGE, facts.way), _way)
"""More's entry for the player's way to blip."""
LEAD_BACK = (SOUND, WAY)
"""Entries of More that lead back to More."""

MORE = (
    Entry(_trial_words, _trial),
    Entry(_record_words, _record),
    Entry(lambda facts: ("Set up the pedals", facts.pedals), _pedals),
    Entry(_health_words, _health),
    Entry(lambda facts: ("Rigs", facts.rigs), _rigs),
    SOUND,
    WAY,
    Entry(lambda _: ("Watch the demo", "a simulated foot plays a set"), _demo),
    LOOK_AGAIN,
)
"""Entries of the menu More, in order: what is needed only now and then."""

HOME = (
    FIVE,
    WARM_UP,
    Entry(_practise_words, _practise),
    Entry(lambda facts: ("History", "") if facts.five else None, _history),
    Entry(lambda _: ("More", ""), _more),
    LEAVE,
)
"""Entries of the home menu, in order; the first is selected at the start."""
