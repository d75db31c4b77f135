"""Screens of a trial, from its menu to its result, usual ones and with the longest words."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from drills.deviation import Deviation
from drills.level import Level
from engine.kit.base import Screen
from engine.kit.text_entry import TextEntry
from engine.pedals.rig import Means
from engine.practice.remeasuring import Remeasuring
from engine.stage.actions import Action
from engine.trial.blips_compared import BlipsCompared
from engine.trial.difference import Difference
from engine.trial.length import ChangeTime, OwnSpread, guessed, lengths
from engine.trial.length_screens import HowLongChange, TrialLength
from engine.trial.measure_table import written
from engine.trial.menu_screens import (
    AboutTrial,
    GivenUp,
    GivingUp,
    NoTrial,
    NotTold,
    PastTrials,
    UnderWay,
)
from engine.trial.outcome import ArmCount, Finding, Outcome
from engine.trial.playing_screens import ChangeOver, Recalibrated, TrialPause
from engine.trial.result import MIXED
from engine.trial.result_screens import Curves, TrialCurves, TrialMeasures, TrialResult
from engine.trial.screen_words import FEET_ONLY, LEVEL_GONE
from engine.trial.setup_screens import PositionMenu, PositionRow, TrialLevel
from engine.trial.status import TrialStatus
from engine.trial.trial import (
    NAME_MOST,
    NOTE_MOST,
    Arm,
    Ball,
    Heel,
    SetUp,
    Shoes,
    Spacing,
    changed_features,
    with_names,
)
from engine.trial.words import result_texts

A, B = with_names(SetUp(""), SetUp("", ball=Ball.TOES))
LONG_A, LONG_B = with_names(
    SetUp("", spacing=Spacing.APART, note="heel on the wooden block, seat two notches back"),
    SetUp("", Ball.TOES, Heel.FLOATING, Shoes.OTHER, Spacing.CLOSER, "W" * NOTE_MOST),
)
WIDE = replace(LONG_B, name="W" * NAME_MOST)
"""Set-up with the widest name there can be."""
STATUS = TrialStatus(3, 8, 7, 0)
IN_A_BLOCK = TrialStatus(15, 16, 32, 4)
SPREAD = OwnSpread(4.7, "Good company", 100)
OFFERED = {time: lengths(SPREAD.points, 9.0, time) for time in ChangeTime}
DIP = Difference("dip", 12.0, 8.0, -4.0, -7.2, -1.1, 0.031, 8)
ALIKE = Difference("peak", 61.0, 58.0, -3.0, -6.1, 0.4, 0.2, 8)
CLEAR = Outcome(
    Finding.STEADIER,
    Arm.B,
    DIP,
    BlipsCompared(replace(DIP, a=11.8, b=8.3, value=-3.5, low=-6.7, high=-0.7), ALIKE),
    Difference("rebound", 4.2, 3.1, -1.1, -2.9, 0.8, 0.3, 8),
    Difference("settle", 0.42, 0.30, -0.12, -0.2, -0.04, 0.02, 8),
    (ArmCount(40, 2, 1), ArmCount(40, 0, 0)),
    recalibrated=False,
)
UNCLEAR = replace(
    CLEAR,
    finding=Finding.CANNOT_TELL,
    steadier=None,
    dip=replace(DIP, value=1.0, a=11.0, b=12.0, low=-12.6, high=14.2, p=0.47),
    blips=BlipsCompared(
        replace(DIP, value=0.6, a=10.8, b=11.4, low=-11.6, high=13.9, p=0.51),
        replace(ALIKE, a=64.0, b=49.0, value=-15.0, low=-21.0, high=-9.0, p=0.01),
    ),
    recalibrated=True,
)
SPLIT = replace(
    UNCLEAR,
    dip=replace(DIP, a=13.0, b=9.0, value=-4.0),
    blips=BlipsCompared(
        replace(DIP, value=0.1, a=12.0, b=12.1, low=-1.6, high=2.9, p=0.9),
        replace(ALIKE, a=65.0, b=45.0, value=-20.0, low=-23.0, high=-17.0, p=0.01),
    ),
    recalibrated=True,
)
EQUAL_DIP = replace(DIP, value=0.2, a=8.0, b=8.2, low=-0.9, high=1.3, p=0.7)
EQUAL = replace(
    CLEAR,
    finding=Finding.NO_DIFFERENCE,
    steadier=None,
    dip=EQUAL_DIP,
    blips=BlipsCompared(EQUAL_DIP, ALIKE),
)
CLOSE_DIP = replace(DIP, a=22.57, b=10.14, value=-12.43, low=-24.61, high=-0.04)
CLOSE = replace(
    CLEAR,
    dip=CLOSE_DIP,
    blips=BlipsCompared(
        replace(CLOSE_DIP, value=-11.4, high=-0.4),
        replace(ALIKE, a=64.0, b=49.0, value=-15.0, low=-21.0, high=-9.0, p=0.01),
    ),
    recalibrated=True,
)
FAILED = replace(UNCLEAR, counts=(ArmCount(80, 0, 0), ArmCount(81, 1, 14, 35)))
NO_DIP, NO_PEAK = (Difference(name, None, None, None) for name in ("dip", "peak"))
UNMEASURED = replace(
    UNCLEAR,
    dip=NO_DIP,
    blips=BlipsCompared(NO_DIP, NO_PEAK),
    settle=Difference("settle", None, None, None),
)


def result(outcome: Outcome, a: SetUp = A, b: SetUp = B) -> TrialResult:
    """The result of a trial of two set-ups."""
    return TrialResult(result_texts(outcome, a.name, b.name), curves=True)


def measures(outcome: Outcome, a: SetUp = A, b: SetUp = B) -> TrialMeasures:
    """The table of all measures of a trial of two set-ups."""
    return TrialMeasures(result_texts(outcome, a.name, b.name))


def curves(
    outcome: Outcome, pictures: Sequence[Deviation], a: SetUp = A, b: SetUp = B
) -> TrialCurves:
    """The curves of a trial, those of B half as large as those of A."""
    smaller = tuple(replace(one, deviation=one.deviation / 2) for one in pictures)
    wild = replace(pictures[0], deviation=8 * pictures[0].deviation)
    pictures = (*pictures, wild, replace(wild, deviation=-wild.deviation))
    arms = Curves(a.name, tuple(pictures)), Curves(b.name, smaller)
    return TrialCurves(written(outcome.dip), arms, written(outcome.blips.peaks))


def set_up(one: SetUp, other: SetUp, *actions: Action) -> PositionMenu:
    """The menu of set-up B after some actions."""
    screen = PositionMenu(Arm.B, one, other, PositionRow.BALL)
    for action in actions:
        screen.on_action(action)
    return screen


def change_over(arm: Arm, one: SetUp, other: SetUp, far: TrialStatus) -> ChangeOver:
    """The change-over screen of a player who uses the pedals."""
    screen = ChangeOver(arm, one, changed_features(one, other), far)
    screen.on_means(Means(feet=True, buttons=True))
    return screen


def trial_screens(levels: Sequence[Level], pictures: Sequence[Deviation]) -> Mapping[str, Any]:
    """All screens of a trial by a name; `pictures` are of blips."""
    same = SetUp("")
    back = (Action.PREVIOUS, Action.GO)
    wide = max(levels, key=lambda level: len(level.purpose + level.title))
    screens: Mapping[str, Screen[Any]] = {
        "about trial": AboutTrial(0),
        "about trial again": AboutTrial(12),
        "trial under way": UnderWay((A, B), "Good company", STATUS, 1),
        "trial under way, long": UnderWay(
            (LONG_A, WIDE),
            wide.title,
            IN_A_BLOCK,
            12,
            LEVEL_GONE,
        ),
        "set-up A": PositionMenu(Arm.A, SetUp(""), None),
        "set-up the same": set_up(same, same, *back),
        "set-up long": set_up(WIDE, same),
        "typing": TextEntry("A note on B", "", NOTE_MOST),
        "typing long": TextEntry("A note on B", "W" * NOTE_MOST, NOTE_MOST),
        "trial level": TrialLevel(levels[:4]),
        "trial level, many": TrialLevel(levels),
        "change time": HowLongChange(ChangeTime.SECONDS),
        "trial length": TrialLength(OFFERED, ChangeTime.SECONDS, SPREAD),
        "trial length guessed": TrialLength(OFFERED, ChangeTime.SHOES, guessed()),
        "trial length by another level": TrialLength(
            OFFERED, ChangeTime.SHOES, replace(SPREAD, level=wide.title, is_of_trial=False)
        ),
        "trial waits": NotTold(Remeasuring(123456, 219600).words),
        "trial mixed": NotTold(MIXED),
        "no trial": NoTrial(FEET_ONLY),
        "change over": change_over(Arm.A, A, B, STATUS),
        "change over in a block": change_over(Arm.B, WIDE, LONG_A, IN_A_BLOCK),
        "trial menu": TrialPause(IN_A_BLOCK),
        "give up": GivingUp(STATUS),
        "given up": GivenUp((LONG_A, WIDE), STATUS),
        "trial recalibrated": Recalibrated(),
        "past trials": PastTrials(
            [
                (n, "17 May 2024: given up, 3 of 8 pairs are done", f"{B.name} or {WIDE.name}")
                for n in range(1, 14)
            ]
        ),
        "trial result": result(CLEAR),
        "trial result unclear": result(UNCLEAR, LONG_A, WIDE),
        "trial result equal": result(EQUAL),
        "trial result blips differed": result(SPLIT, LONG_A, WIDE),
        "trial result unmeasured": result(UNMEASURED),
        "trial result close": result(CLOSE, LONG_A, WIDE),
        "trial result mostly failed": result(FAILED, LONG_A, WIDE),
        "trial measures": measures(CLEAR),
        "trial measures long": measures(FAILED, LONG_A, WIDE),
        "trial measures close": measures(CLOSE),
        "trial curves": curves(CLEAR, pictures),
        "trial curves blips differed": curves(SPLIT, pictures),
        "trial curves long": curves(UNCLEAR, pictures, LONG_A, WIDE),
    }
    return screens
