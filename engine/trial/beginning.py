"""A trial before it begins: its two set-ups, its level, its length; and then it is kept."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from drills.level import Level
from engine.drill.attempt import Setting
from engine.drill.set import SEEDS
from engine.five.planner import works_on
from engine.five.player_history import player_state_of
from engine.kit.flow import show
from engine.kit.text_entry import TextEntry
from engine.stage.scene import Flow
from engine.store import History
from engine.store.courses import courses_of
from engine.trial import outcome
from engine.trial.door_screens import NoTrial
from engine.trial.saved import keep_new_trial, trial_under_way
from engine.trial.setup_screens import Length, PositionMenu, PositionRow, TrialLength, TrialLevel
from engine.trial.setups import NAME_MOST, NOTE_MOST, changed, named
from engine.trial.trial import BLOCK, FEWEST_PAIRS, MOST_PAIRS, Arm, SetUp, Trial

COMPARED = ("dip", "rebound", "settle")
"""Names of the measures that a level must have."""
LENGTHS = (FEWEST_PAIRS, 8, 12, MOST_PAIRS)
"""count of pairs, those to choose from."""
NEWEST = 100
"""count, newest repetitions of the kind that tell how the player's dips spread."""
NO_LEVEL = (
    "A trial is played on a level of blips, and none of them is open to you yet. "
    "Practise on: it comes soon."
)
"""What is said where there is none."""


def begin_trial(setting: Setting, history: History, band: Level) -> Flow[Trial | None]:
    """Ask for all that a trial needs, and keep that it begins; None for going back."""
    levels = levels_for(setting, history, band)
    if not levels:
        yield from show(NoTrial(NO_LEVEL), setting.rig, setting.stage)
        return None
    a, b = SetUp(""), None
    while (arms := (yield from _set_ups(a, b, setting))) is not None:
        chosen = yield from _level_and_length(levels, setting, history, band)
        if chosen is not None:
            level, pairs = chosen
            seed = int(setting.rng.integers(SEEDS))
            keep_new_trial(history, setting.now(), level.id, named(*arms), pairs, seed)
            return trial_under_way(history)
        a, b = arms
    return None


def levels_for(setting: Setting, history: History, band: Level) -> list[Level]:
    """Those that a trial can be played on: what is worked on now, then those passed, hardest first.

    Raises StoreError.
    """
    there = setting.rig.there
    player = player_state_of(history, setting.levels, band, there, setting.now().date())
    found = dict.fromkeys([works_on(player).id, *(one.id for one in reversed(player.playable))])
    by_id = {level.id: level for level in setting.levels}
    return [by_id[name] for name in found if set(COMPARED) <= set(by_id[name].kind.measures)]


def lengths_for(level: Level, setting: Setting, history: History, band: Level) -> list[Length]:
    """What each number of pairs finds, and how long it takes this player. Raises StoreError."""
    spread = dips_spread(history, level)
    there, today = setting.rig.there, setting.now().date()
    pace = player_state_of(history, setting.levels, band, there, today).pace.of(level)
    return [
        Length(
            pairs,
            count := 2 * pairs * BLOCK,
            outcome.detectable_difference(pairs, spread),
            count * pace / 60,
        )
        for pairs in LENGTHS
    ]


def dips_spread(history: History, level: Level) -> float:
    """points, the spread of the player's newest dips in the kind of a level. Raises StoreError."""
    kind = level.kind.name
    dips = courses_of(history, {kind: "dip"})[kind].value
    return outcome.spread_of(dips[np.isfinite(dips)][-NEWEST:].tolist())


def _level_and_length(
    levels: Sequence[Level], setting: Setting, history: History, band: Level
) -> Flow[tuple[Level, int] | None]:
    """The level, and the number of pairs; None for going back."""
    while True:
        level = yield from show(TrialLevel(levels), setting.rig, setting.stage)
        if not isinstance(level, Level):
            return None
        lengths = lengths_for(level, setting, history, band)
        length = yield from show(TrialLength(lengths), setting.rig, setting.stage)
        if isinstance(length, Length):
            return level, length.pairs


def _set_ups(a: SetUp, b: SetUp | None, setting: Setting) -> Flow[tuple[SetUp, SetUp] | None]:
    """The two set-ups, as they are or as they were left before; None for going back.

    B begins as A, so that what differs is what the player changes.
    """
    while True:
        a, on = yield from _set_up(Arm.A, a, None, setting)
        if not on:
            return None
        b, on = yield from _set_up(Arm.B, b or replace(a, name="", note=""), a, setting)
        if on:
            return a, b


def _set_up(
    arm: Arm, one: SetUp, other: SetUp | None, setting: Setting
) -> Flow[tuple[SetUp, bool]]:
    """One set-up, and whether the player goes on with it."""
    fresh = other is not None and not any(changed(one, other))
    row = PositionRow.BALL if fresh else PositionRow.ON
    while True:
        screen = PositionMenu(arm, one, other, row)
        row = yield from show(screen, setting.rig, setting.stage)
        one = screen.set_up
        if row is PositionRow.NAME:
            text = yield from _typed(f"A name for {arm.value}", one.name, NAME_MOST, setting)
            one = replace(one, name=text)
        elif row is PositionRow.NOTE:
            text = yield from _typed(f"A note on {arm.value}", one.note, NOTE_MOST, setting)
            one = replace(one, note=text)
        else:
            return one, row is PositionRow.ON


def _typed(heading: str, text: str, most: int, setting: Setting) -> Flow[str]:
    """A text as it is typed, or as it was."""
    screen = TextEntry(heading, text, most)
    kept = yield from show(screen, setting.rig, setting.stage)
    return screen.text.strip() if kept else text


def level_of(name: str, levels: Sequence[Level]) -> Level | None:
    """The level of an id; None where there is none any more."""
    return next((level for level in levels if level.id == name), None)
