"""`Facts`: everything that home and More show about the player, read from the history at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from drills.level import Level
from engine.drill.attempt import Setting
from engine.drill.lesson_words import WAYS
from engine.five.counting_today import counting_today
from engine.five.forecast import forecast_words
from engine.five.planner import works_on
from engine.five.player_history import blips_so_far, player_state_of, steadiness_view
from engine.five.player_state import PlayerState
from engine.game.offer import Offer
from engine.game.signal_words import volume_words
from engine.game.sound_and_light import saved_signals
from engine.kit.foot_pose import Way
from engine.kit.steadiness_view import SteadinessView
from engine.ladder.ladder import LadderStage
from engine.ladder.rise import Climb, Rise, rise_between
from engine.ladder.saved import done, stages_of
from engine.pedals.rig import Rig
from engine.practice.focus import Focus
from engine.practice.passes import next_level
from engine.practice.remeasuring import Remeasuring
from engine.practice.results import Streaks
from engine.setup.rigs import rigs_words
from engine.setup.saved_rigs import saved_rigs
from engine.store import History, ledger
from engine.store.remeasure import remeasuring
from engine.trial.status import days_under_way, under_way


@dataclass(frozen=True)
class Facts:
    """Everything about the player that home and More show, ready to be drawn."""

    streaks: Streaks
    """Current streaks in days and in clean repetitions, with the best of each."""
    following: Level
    """Level that the player should practise next."""
    stages: Sequence[LadderStage]
    """Stages of the ladder with the states of their levels, for this player."""
    five: str
    """Forecast of the next session in words; empty in a try-out, which is not stored."""
    steadiness: SteadinessView | None = None
    """Steadiness of the player's brake and its course; None before the first estimate."""
    today: date | None = None
    """Day on which the facts are read, which dates the steadiness; None where there is none."""
    blips: int = 0
    """Number of blips so far that count for steadiness."""
    remeasuring: Remeasuring | None = None
    """How far the history is remeasured, which steadiness waits for; None if all of it is."""
    pedals: str = "ready"
    """What the player plays with, in a few words; "ready" if pedals are bound and plugged in."""
    placing: bool = False
    """Whether home offers a placing set."""
    trial: str = ""
    """Progress of the current trial in words; empty if there is none."""
    by_days: bool = False
    """Whether the current trial is one by days, beside practice."""
    rigs: str = ""
    """Rig that is played with, in a few words, and how many there are."""
    player: str = ""
    """Whose game it is, in a few words; empty where there is only one player."""
    sound: str = ""
    """Volume of the game in a word or two."""
    focus: Focus | None = None
    """Fault that the player works on; None if there is none."""
    warm_up_counts: bool = False
    """Whether today's warm-up is a session of counting."""
    way: str = ""
    """The player's way to blip, in a few words."""


def facts_of(setting: Setting, history: History, offer: Offer) -> Facts:
    """Read everything that home and More show about the player. Raises StoreError."""
    counts, today = setting.rig.counts, setting.now().date()
    player = player_state_of(history, setting.levels, offer.band, setting.there, today)
    return Facts(
        streaks=ledger.streaks(history, today),
        following=_following(setting, player),
        stages=stages_of(setting, history),
        five=_five(setting, history, offer, player),
        steadiness=steadiness_view(history, offer.band, today),
        today=today,
        blips=blips_so_far(history, offer.band) or 0,
        remeasuring=remeasuring(history),
        pedals=_played_with(setting.rig),
        placing=counts and not done(history),
        trial=under_way(history),
        by_days=days_under_way(history) is not None,
        rigs=rigs_words(saved_rigs(history), setting.rig.number),
        player=offer.player,
        sound=volume_words(saved_signals(history)),
        focus=player.focus if counts else None,
        warm_up_counts=counts and counting_today(history, player) is not None,
        way=WAYS[_way_of(setting)].lower(),
    )


def _five(setting: Setting, history: History, offer: Offer, player: PlayerState) -> str:
    """Forecast of the next session in words; empty in a try-out."""
    if not setting.rig.counts:
        return ""
    return forecast_words(setting, history, offer.band, offer.minutes, player)


def following_level(setting: Setting, history: History, band: Level) -> Level:
    """Level to practise next: the one a session would work on; in a try-out the next not passed.

    Raises StoreError.
    """
    there, today = setting.there, setting.now().date()
    return _following(setting, player_state_of(history, setting.levels, band, there, today))


def _following(setting: Setting, player: PlayerState) -> Level:
    """Level to practise next in this state of the player."""
    if setting.history is None:
        return next_level(player.levels, player.done, player.pedals)
    return works_on(player)


def _played_with(rig: Rig) -> str:
    if not rig.is_feet:
        return "playing with the mouse"
    return "ready" if rig.sample() is not None else "unplugged"


def risen(before: Facts, after: Facts) -> Rise | None:
    """What moved on the climb from one home to the next; None if nothing did."""
    earlier, now = (Climb(facts.stages, facts.following) for facts in (before, after))
    return rise_between(earlier, now)


def _way_of(setting: Setting) -> Way:
    """The player's way to blip, also where it was chosen since the setting was made."""
    chosen = None if setting.lessons is None else setting.lessons.way
    return chosen or setting.way
