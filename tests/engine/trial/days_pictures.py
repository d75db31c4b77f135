"""Screens of a trial by days, usual ones and with the longest words."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from engine.trial.blips_compared import BlipsCompared
from engine.trial.by_days import Today
from engine.trial.by_days_outcome import DaysOutcome
from engine.trial.by_days_power import Power
from engine.trial.by_days_screens import DaysBegin, DaysUnderWay, TodaysSetUp
from engine.trial.by_days_words import days_texts
from engine.trial.difference import Difference
from engine.trial.outcome import ArmCount, Finding
from engine.trial.result_screens import DaysResult, TrialMeasures
from engine.trial.status import TrialStatus
from engine.trial.trial import Arm, SetUp, changed_features
from tests.engine.trial.pictures import LONG_A, WIDE, A, B


def off(a: float, b: float, low: float, high: float, p: float) -> Difference:
    """Comparison of deviations in points, over eight pairs of days."""
    return Difference("dip", a, b, b - a, low, high, p, 8)


CLEAR = DaysOutcome(
    Finding.STEADIER,
    Arm.B,
    off(8.41, 6.02, -3.9, -0.5, 0.016),
    BlipsCompared(
        off(8.24, 6.12, -3.64, -0.43, 0.016),
        Difference("peak", 60.4, 59.1, -1.3, -4.0, 1.6, 0.4, 8),
    ),
    (ArmCount(49, 2, 1), ArmCount(48, 0, 0)),
    8,
)
SPLIT = replace(
    CLEAR,
    finding=Finding.CANNOT_TELL,
    steadier=None,
    blips=BlipsCompared(
        off(8.2, 8.4, -1.6, 2.1, 0.62),
        Difference("peak", 65.2, 45.3, -19.9, -23.0, -16.0, 0.008, 8),
    ),
    recalibrated=True,
)
NO_DIP, NO_PEAK = (Difference(name, None, None, None) for name in ("dip", "peak"))
UNMEASURED = replace(SPLIT, raw=NO_DIP, blips=BlipsCompared(NO_DIP, NO_PEAK), recalibrated=False)
STATUS = TrialStatus(2, 8, 5, 0, by_days=True)


def found(outcome: DaysOutcome, a: SetUp = A, b: SetUp = B) -> DaysResult:
    """The result of a trial by days of two set-ups."""
    return DaysResult(days_texts(outcome, a.name, b.name), curves=True)


def days_screens() -> Mapping[str, Any]:
    """All screens of a trial by days by a name."""
    changes = changed_features(WIDE, LONG_A)
    return {
        "trial by days": DaysBegin(Power(0.38, 8.2, is_guess=False)),
        "trial by days, a guess": DaysBegin(Power(0.44, None, is_guess=True)),
        "trial today": TodaysSetUp(
            Today(4, Arm.B, 16, begun=False), B, changed_features(B, A), recalibrated=False
        ),
        "trial today, long": TodaysSetUp(
            Today(15, Arm.B, 16, begun=True), WIDE, changes, recalibrated=True
        ),
        "trial today, once more": TodaysSetUp(
            Today(0, Arm.A, 16, begun=False, earlier=2),
            A,
            changed_features(A, B),
            recalibrated=True,
        ),
        "trial by days under way": DaysUnderWay((A, B), STATUS, 0),
        "trial by days under way, long": DaysUnderWay((LONG_A, WIDE), STATUS, 12),
        "trial by days result": found(CLEAR),
        "trial by days result, split": found(SPLIT, LONG_A, WIDE),
        "trial by days result, unmeasured": found(UNMEASURED),
        "trial by days measures": TrialMeasures(days_texts(CLEAR, A.name, B.name)),
    }
