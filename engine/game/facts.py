"""Everything that home and More say of the player, read from the history once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drills.level import Level
from engine.drill.attempt import Setting
from engine.five.forecast import forecast_words
from engine.five.planner import works_on
from engine.five.player_history import player_state_of, steadiness_blips, steadiness_view
from engine.game.offer import Offer
from engine.game.sound_and_light import loudness, signals_wanted
from engine.kit.steadiness_chart import SteadinessView
from engine.ladder.ladder import LadderStage
from engine.ladder.saved import done, stages_of
from engine.pedals.rig import Rig
from engine.practice.passes import next_level
from engine.practice.results import Purpose, Streaks
from engine.store import History, ledger
from engine.trial.status import under_way


@dataclass(frozen=True)
class Facts:
    """What home and More say; every field is ready to be drawn."""

    streaks: Streaks
    """Streaks and bests."""
    following: Level
    """The level to practise next."""
    stages: Sequence[LadderStage]
    """The stages with their levels, as they stand."""
    five: str
    """What the next five minutes will be; empty in a try-out, of which no history is kept."""
    steadiness: SteadinessView | None = None
    """The steadiness band; None before there is one."""
    blips: int = 0
    """Steadiness blips made so far, as a count."""
    pedals: str = "ready"
    """What is played with, in a few words; "ready" where there is nothing to say."""
    placing: bool = False
    """Whether a placing set is offered."""
    trial: str = ""
    """How far the trial under way has come; empty where none is."""
    sound: str = ""
    """How loud the game is, in a word."""


def facts_of(setting: Setting, history: History, offer: Offer) -> Facts:
    """Read what home and More say. Raises StoreError."""
    counts = setting.rig.counts
    return Facts(
        streaks=ledger.streaks(history, setting.now().date()),
        following=following_level(setting, history, offer.band),
        stages=stages_of(setting, history),
        five=forecast_words(setting, history, offer.band, offer.minutes) if counts else "",
        steadiness=steadiness_view(history, offer.band, setting.now().date()),
        blips=len(steadiness_blips(history, offer.band, Purpose.BAND)),
        pedals=_played_with(setting.rig),
        placing=counts and not done(history),
        trial=under_way(history),
        sound=loudness(signals_wanted(history)),
    )


def following_level(setting: Setting, history: History, band: Level) -> Level:
    """The level to practise next: what five minutes would work on; in a try-out, the next one.

    Raises StoreError.
    """
    levels, there = setting.levels, setting.rig.there
    if setting.history is None:
        return next_level(levels, done(history), there)
    return works_on(player_state_of(history, levels, band, there, setting.now().date()))


def _played_with(rig: Rig) -> str:
    if not rig.is_feet:
        return "playing with the mouse"
    return "ready" if rig.sample() is not None else "unplugged"
