"""Flow that begins a trial: asks for two set-ups, a level and a length, and stores the trial."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from drills.level import Level
from engine.drill.attempt import Setting
from engine.drill.set import SEEDS
from engine.five.planner import works_on
from engine.five.player_history import player_state_of
from engine.kit.flow import show
from engine.kit.text_entry import TextEntry
from engine.stage.scene import Flow
from engine.store import History
from engine.trial.choosing_length import choose_length
from engine.trial.menu_screens import NoTrial
from engine.trial.saved import keep_new_trial, trial_under_way
from engine.trial.screen_words import NO_LEVEL
from engine.trial.setup_screens import PositionMenu, PositionRow, TrialLevel
from engine.trial.trial import (
    NAME_MOST,
    NOTE_MOST,
    Arm,
    SetUp,
    Trial,
    changed_features,
    with_names,
)

COMPARED = ("dip", "peak", "rebound", "settle")
"""Names of the measures that a trial compares; a level without them cannot be chosen."""


def begin_trial(setting: Setting, history: History, band: Level) -> Flow[Trial | None]:
    """Ask for set-ups, level and length of a trial and store it; None if the player goes back."""
    levels = levels_for(setting, history, band)
    if not levels:
        yield from show(NoTrial(NO_LEVEL), setting.rig, setting.stage)
        return None
    a, b = SetUp(""), None
    while (arms := (yield from ask_set_ups(a, b, setting))) is not None:
        chosen = yield from _level_and_length(levels, arms, setting, history, band)
        if chosen is not None:
            level, pairs = chosen
            seed = int(setting.rng.integers(SEEDS))
            keep_new_trial(history, setting.now(), level.id, with_names(*arms), pairs, seed)
            return trial_under_way(history)
        a, b = arms
    return None


def levels_for(setting: Setting, history: History, band: Level) -> list[Level]:
    """Levels that a trial can be played on: the current one, then the passed ones, hardest first.

    Raises StoreError.
    """
    there = setting.there
    player = player_state_of(history, setting.levels, band, there, setting.now().date())
    names = dict.fromkeys([works_on(player).id, *(level.id for level in reversed(player.playable))])
    by_id = {level.id: level for level in setting.levels}
    return [by_id[name] for name in names if set(COMPARED) <= set(by_id[name].kind.measures)]


def _level_and_length(
    levels: Sequence[Level],
    arms: tuple[SetUp, SetUp],
    setting: Setting,
    history: History,
    band: Level,
) -> Flow[tuple[Level, int] | None]:
    """Ask for the level and the number of pairs of a trial; None if the player goes back."""
    while True:
        level = yield from show(TrialLevel(levels), setting.rig, setting.stage)
        if not isinstance(level, Level):
            return None
        length = yield from choose_length(level, arms, setting, history, band)
        if length is not None:
            return level, length.pairs


def ask_set_ups(a: SetUp, b: SetUp | None, setting: Setting) -> Flow[tuple[SetUp, SetUp] | None]:
    """Ask for set-ups A and B, beginning with those chosen last; None if the player goes back.

    B begins equal to A, so that they differ in what the player changes.
    """
    while True:
        a, is_ready = yield from _set_up(Arm.A, a, None, setting)
        if not is_ready:
            return None
        b, is_ready = yield from _set_up(Arm.B, b or replace(a, name="", note=""), a, setting)
        if is_ready:
            return a, b


def _set_up(
    arm: Arm, set_up: SetUp, other: SetUp | None, setting: Setting
) -> Flow[tuple[SetUp, bool]]:
    """Ask for one set-up of a trial; return it, and whether the player goes on with it."""
    fresh = other is not None and not any(changed_features(set_up, other))
    row = PositionRow.BALL if fresh else PositionRow.ON
    while True:
        screen = PositionMenu(arm, set_up, other, row)
        row = yield from show(screen, setting.rig, setting.stage)
        set_up = screen.set_up
        if row is PositionRow.NAME:
            text = yield from _typed(f"A name for {arm.value}", set_up.name, NAME_MOST, setting)
            set_up = replace(set_up, name=text)
        elif row is PositionRow.NOTE:
            text = yield from _typed(f"A note on {arm.value}", set_up.note, NOTE_MOST, setting)
            set_up = replace(set_up, note=text)
        else:
            return set_up, row is PositionRow.ON


def _typed(heading: str, text: str, most: int, setting: Setting) -> Flow[str]:
    """Ask for a name or note of a set-up; return the old text if the player leaves it unchanged."""
    screen = TextEntry(heading, text, most)
    is_accepted = yield from show(screen, setting.rig, setting.stage)
    return screen.text.strip() if is_accepted else text


def level_of(name: str, levels: Sequence[Level]) -> Level | None:
    """Level with this id; None if there is no such level any more."""
    return next((level for level in levels if level.id == name), None)
