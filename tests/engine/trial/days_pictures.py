"""Screens of a trial by days, usual ones and with the longest words."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from engine.trial.by_days import Today
from engine.trial.by_days_outcome import Compared, DaysOutcome
from engine.trial.by_days_power import Power
from engine.trial.by_days_screens import DaysBegin, DaysFigures, DaysUnderWay, TodaysSetUp
from engine.trial.by_days_words import days_outcome_words
from engine.trial.outcome import ArmCount, Finding
from engine.trial.status import TrialStatus
from engine.trial.trial import Arm, SetUp, changed_features
from tests.engine.trial.pictures import LONG_A, WIDE, A, B

CLEAR = DaysOutcome(
    Finding.STEADIER,
    Arm.B,
    Compared(8.24, 6.12, -3.64, -0.43, 0.016),
    Compared(8.41, 6.02, -3.9, -0.5, 0.016),
    Compared(60.4, 59.1, -4.0, 1.6, 0.4),
    (ArmCount(49, 2, 1), ArmCount(48, 0, 0)),
    8,
)
SPLIT = replace(
    CLEAR,
    finding=Finding.CANNOT_TELL,
    steadier=None,
    scaled=Compared(8.2, 8.4, -1.6, 2.1, 0.62),
    peak=Compared(65.2, 45.3, -23.0, -16.0, 0.008),
    recalibrated=True,
)
UNMEASURED = replace(SPLIT, scaled=None, raw=None, peak=None, recalibrated=False)
STATUS = TrialStatus(2, 8, 5, 0, by_days=True)


def figures(outcome: DaysOutcome, a: SetUp = A, b: SetUp = B) -> DaysFigures:
    """The result of a trial by days of two set-ups."""
    names = a.name, b.name
    return DaysFigures(days_outcome_words(outcome, *names), outcome, names, curves=True)


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
        "trial by days result": figures(CLEAR),
        "trial by days result, split": figures(SPLIT, LONG_A, WIDE),
        "trial by days result, unmeasured": figures(UNMEASURED),
    }
