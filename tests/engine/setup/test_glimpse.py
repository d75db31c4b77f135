"""First word on the health of pedals, from what is seen while they are set up."""

from itertools import pairwise

import numpy as np
import pytest

from drills.calibration import COUNTS, Range
from drills.health.pedal import BoundPedal, PedalHealth
from drills.trace import Pedal, nanoseconds
from engine.pedals.identity import Axis
from engine.setup.glimpse import MOST, Glimpse
from engine.setup.health_words import setup_line
from engine.stage.actions import Action
from engine.stage.scene import Attended
from tests.engine.setup.plugged_devices import BRAKE, THROTTLE, Bench

AXIS, OTHER = Axis(0, 0), Axis(0, 1)
ENDS = Range(-0.875, 0.875)
BRAKE_PEDAL = BoundPedal(Pedal.BRAKE, "Pedals", 0, ENDS)
MS = nanoseconds(0.001)


def way(seconds: float) -> float:
    """Share of the way, 0 to 1, of a pedal that is pressed and let go twice within four seconds."""
    along = seconds % 2
    return float(np.clip(np.interp(along, [0.3, 0.7, 1.0, 1.5], [0, 1, 1, 0]), 0, 1))


def glimpse(
    bits: int, rate: float, noise: float = 0.0, read_every: int = 1, seed: int = 5
) -> Glimpse:
    """What is seen of a virtual axis over five seconds, the last of them at rest."""
    rng = np.random.default_rng(seed)
    seen, step = Glimpse(), 2 * COUNTS / 2**bits
    last, raw = -1, 0.0
    for now in range(0, 5000, read_every):
        report = int(now / 1000 * rate)
        if report != last:
            last = report
            place = way(min(report / rate, 3.9)) + noise / 100 * rng.standard_normal()
            raw = np.floor(ENDS.raw(100 * place) * COUNTS / step) * step / COUNTS
        seen.feed(now * MS, {AXIS: float(raw), OTHER: 0.25})
    return seen


@pytest.mark.parametrize("bits", [8, 10, 12, 16])
@pytest.mark.parametrize("rate", [20, 60, 125, 250])
def test_steps_and_reports_are_seen_while_pedals_are_set_up(bits: int, rate: float) -> None:
    health = glimpse(bits, rate).health(BRAKE_PEDAL, AXIS)

    assert health.timing is not None
    assert health.step == pytest.approx(100 / 2**bits / 0.875, rel=0.05)
    assert health.timing.interval == pytest.approx(1 / rate, rel=0.05)
    assert (health.rest or 0) == pytest.approx(0, abs=1e-9)


def test_noise_at_rest_is_seen_within_a_tenth() -> None:
    found = [
        glimpse(12, 250, noise=0.4, seed=seed).health(BRAKE_PEDAL, AXIS).rest or 0.0
        for seed in range(4)
    ]

    assert np.mean(found) == pytest.approx(0.4, rel=0.1)


def test_seldom_reads_of_a_menu_before_do_not_spoil_it() -> None:
    health = glimpse(12, 60, read_every=4).health(BRAKE_PEDAL, AXIS)

    assert health.timing is not None
    assert health.timing.interval == pytest.approx(1 / 60, rel=0.05)


def test_an_axis_that_did_not_move_or_is_not_there_is_not_seen() -> None:
    seen = glimpse(12, 250)

    for axis in (OTHER, Axis(7, 7)):
        assert seen.health(BRAKE_PEDAL, axis) == PedalHealth(Pedal.BRAKE, seen=False)


def test_a_long_setup_stays_in_bounds() -> None:
    seen = Glimpse()
    for now in range(MOST + 500):
        seen.feed(now * MS, {AXIS: (now % 2) / 2})

    assert len(seen._seen) == MOST


@pytest.mark.parametrize(
    ("bits", "rate", "line"),
    [
        (12, 125, "Brake: steps of 0.028 %, no noise at rest, 125 reports a second"),
        (12, 20, "Too slow to judge: 50 ms between reports, 40 ms at most."),
        (6, 125, "Brake: steps of 1.8 %"),
        (5, 250, "Too coarse to judge: a step is 3.6 points of the brake."),
    ],
)
def test_one_line_of_it_is_told(bits: int, rate: float, line: str) -> None:
    assert setup_line(glimpse(bits, rate).healths([(BRAKE_PEDAL, AXIS)])) == line


def test_pedals_that_were_not_seen_are_told_in_a_line_too() -> None:
    line = setup_line([PedalHealth(Pedal.BRAKE, seen=False)])

    assert line == "Too little was seen to say what they can show."


def test_the_line_is_on_the_screen_that_asks_whether_to_keep_the_pedals(bench: Bench) -> None:
    told: list[str] = []

    def presses(screen: Attended, axis: int) -> None:
        for before, after in pairwise((0, 0, 1, 0, 1, 0)):
            for report in range(150):
                share = before + (after - before) * min(report / 50, 1)
                bench.pad.move(axis, round(share * 4095) * 16 / COUNTS - 1)
                for _ in range(8):
                    bench.clock.advance(MS)
                    if screen.outcome is None:
                        screen.on_sample(bench.rig.sample(), bench.clock())

    def read_line(screen: Attended) -> None:
        told.append(screen._health)  # type: ignore[attr-defined]
        screen.on_action(Action.GO)

    first = bench.everything()
    bench.walk(
        ("pedals", bench.rest),
        ("pedals", lambda screen: presses(screen, BRAKE)),
        ("pedals", bench.rest),
        ("pedals", lambda screen: presses(screen, THROTTLE)),
        *first[4:-1],
        ("pedals found", read_line),
    )

    assert told == ["Brake: steps of 0.024 %, no noise at rest, 125 reports a second"]
