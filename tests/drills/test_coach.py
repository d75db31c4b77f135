"""The one sentence after a repetition, word for word."""

from typing import Any

import pytest

from drills.coach import NOT_COUNTED, disturbance
from drills.kinds import KINDS
from drills.score import Reason, Verdict

STILL = "The brake stayed where it was through the blip."


def moved(**measures: float | None) -> dict[str, Any]:
    """Measures of a blip that did nothing but what is named."""
    return {"dip": 0.0, "rebound": 0.0, "surge": 0.0, "settle": 0.0, **measures}


@pytest.mark.parametrize(
    ("measures", "said"),
    [
        (moved(), STILL),
        (moved(dip=1.99, surge=1.99, settle=None), STILL),
        (
            moved(dip=12.4, settle=0.384),
            "The brake fell 12 % as the throttle went in; it was steady again after 0.38 s.",
        ),
        (
            moved(dip=12.6, rebound=4.2, surge=4.2, settle=0.5),
            "The brake fell 13 % as the throttle went in and came back 4 % over; "
            "it was steady again after 0.50 s.",
        ),
        (
            moved(dip=2.0, rebound=1.9, surge=1.9),
            "The brake fell 2 % as the throttle went in; it stayed close enough all the way.",
        ),
        (
            moved(dip=1.0, surge=8.0, settle=None),
            "The brake rose 8 % with the throttle: the whole foot pushed; "
            "it did not come back to rest.",
        ),
    ],
)
def test_a_blip_is_told_by_what_the_brake_did(measures: dict[str, Any], said: str) -> None:
    assert disturbance(measures) == said
    assert KINDS["blip"].sentence(Verdict(Reason.CLEAN, 90.0, (), measures)) == said


@pytest.mark.parametrize(
    ("bias", "spread", "drift", "said"),
    [
        (0.0, 0.5, 0.0, "The brake sat on the target and wandered 0.5 % about itself."),
        (0.9, 1.0, 0.4, "The brake sat on the target and wandered 1.0 % about itself."),
        (3.2, 1.5, 0.0, "The brake sat 3.2 % heavy and wandered 1.5 % about itself."),
        (-1.0, 1.5, 0.0, "The brake sat 1.0 % light and wandered 1.5 % about itself."),
        (
            0.0,
            2.0,
            0.5,
            "The brake sat on the target and wandered 2.0 % about itself; "
            "it kept pressing harder, 0.5 % a second.",
        ),
        (
            -4.0,
            2.0,
            -1.26,
            "The brake sat 4.0 % light and wandered 2.0 % about itself; "
            "it kept easing off, 1.3 % a second.",
        ),
    ],
)
def test_a_hold_is_told_by_where_it_sat_and_how_it_moved(
    bias: float, spread: float, drift: float, said: str
) -> None:
    measures = {"constant_error": bias, "variable_error": spread, "drift": drift}

    assert KINDS["hold"].sentence(Verdict(Reason.OVER_LIMIT, 40.0, (), measures)) == said


@pytest.mark.parametrize(
    ("reason", "said"),
    [
        (
            Reason.ANTICIPATION,
            "The throttle came before the cue could be answered: wait for it.",
        ),
        (
            Reason.NO_TARGET,
            "The pedals never came to rest where this begins, so nothing was measured.",
        ),
        (
            Reason.GAP,
            "The pedals could not be read for a moment, so this cannot be judged.",
        ),
        (Reason.UNPLUGGED, "The pedals were unplugged."),
        (Reason.FOCUS_LOST, "The window lost the focus."),
        (Reason.LEFT, "You left before the end."),
        (
            Reason.NO_BLIP,
            "No blip came in time: one short stab of the throttle while the brake stays on.",
        ),
        (
            Reason.NOT_SCORED,
            "There was too little held brake before the blip to measure it against.",
        ),
    ],
)
def test_a_repetition_without_measures_is_told_why(reason: Reason, said: str) -> None:
    assert KINDS["blip"].sentence(Verdict(reason)) == said


def test_a_blip_too_many_is_told_before_what_it_did() -> None:
    verdict = Verdict(Reason.EXTRA_BLIP, 80.0, (), moved())

    assert KINDS["blip"].sentence(verdict) == f"One blip was asked and more came. {STILL}"


def test_every_void_ending_has_its_sentence() -> None:
    assert set(NOT_COUNTED) == {reason for reason in Reason if reason.void}
