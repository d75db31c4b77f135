"""Fault of a repetition: never another than the one that its reveal speaks of."""

from collections.abc import Callable
from itertools import islice

import pytest

from drills.fault import Fault
from drills.foot import SimulatedFoot
from drills.kinds import asked_words, blip_faults, early, run_words, trail_faults, zone_words
from drills.level import Level
from drills.score import Reason, Verdict
from drills.trace import nanoseconds
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from tests.bench.faulty_foot import FaultyFoot
from tests.simulated_repetitions import played_by

LEVELS = {level.id: level for level in load_levels([SHIPPED])}
REPORTS = nanoseconds(0.004)
LIGHT = {*blip_faults.OFFSETS["light"][0], *blip_faults.BASES["light"][0]}
HEAVY = {*blip_faults.OFFSETS["heavy"][0], *blip_faults.BASES["heavy"][0]}
BLIPS = [f"the {place} blip" for place in run_words.ORDINAL]
EARLY = {
    *(*blip_faults.EARLY[0], *blip_faults.EARLY_OFF[0], *trail_faults.EARLY[0]),
    *(said for blip in BLIPS for said in zone_words.early_at(blip)[0]),
}
ROSE = set(blip_faults.SURGES["before the dip"][0])
PUSHED = {
    *(*ROSE, *blip_faults.BRACED[0], *trail_faults.BRACED[0]),
    *(said for blip in BLIPS for said in zone_words.braced_at(blip)[0]),
}
CAME_BACK = {
    *blip_faults.SURGES["after the dip"][0],
    *blip_faults.REBOUNDS["after the dip"][0],
    *run_words.OVER["surge back"][0],
}
AWAY = {*asked_words.OFF_TARGET["light"][0], *asked_words.OFF_TARGET["heavy"][0]}
"""Sentences of the reveal, by what they say."""


def contradicts(sentence: str, verdict: Verdict, fault: Fault | None) -> bool:
    """Whether a fault is another than the sentence on the same repetition says."""
    if fault is None:
        return False
    only = {
        Fault.EARLY_ROLL: sentence in EARLY,
        Fault.BRACING: sentence in PUSHED,
        Fault.LOST: sentence in AWAY or verdict.reason is Reason.OFF_TARGET,
        Fault.BIG: verdict.reason is Reason.HEAVY,
        Fault.SLOW: verdict.reason in (Reason.LONG, Reason.LATE),
    }
    if any(only.values()):
        return not only.get(fault, False)
    never = {
        Fault.BRACING: sentence in CAME_BACK,
        Fault.LIGHT: sentence in HEAVY,
        Fault.HEAVY: sentence in LIGHT,
    }
    return never.get(fault, False)


def told_otherwise(foot: SimulatedFoot, level: Level, count: int) -> list[tuple[str, str]]:
    """Sentences and faults that contradict each other in some repetitions of a level."""
    found = []
    for record in islice(played_by(foot, level, 5, (), REPORTS), count):
        verdict = record.verdict
        if verdict.void:
            continue
        fault = level.kind.fault(verdict)
        sentence = level.kind.remark(level, verdict).sentences[0]
        if contradicts(sentence, verdict, fault):
            found.append((sentence, str(fault)))
    return found


PLAYED = (
    *("blip-1-first", "quiet-five", "run-4-quick", "clutch-2-quiet", "ease-4-guess"),
    *("zone-1-gatehouse", "zone-5-ridge"),
)
FEET: tuple[Callable[[], SimulatedFoot], ...] = (
    lambda: SimulatedFoot(0.0, 4),
    lambda: SimulatedFoot(0.6, 4),
)


@pytest.mark.parametrize("foot", FEET, ids=["beginner", "player"])
@pytest.mark.parametrize("name", PLAYED)
def test_no_fault_contradicts_the_reveal_of_a_foot_that_slips(
    name: str, foot: Callable[[], SimulatedFoot]
) -> None:
    assert told_otherwise(foot(), LEVELS[name], 15) == []


@pytest.mark.parametrize("fault", list(Fault))
@pytest.mark.parametrize(
    "level",
    [LEVELS["blip-4-ripple"], LEVELS["run-2-three"], load_band()],
    ids=lambda level: level.id,
)
def test_no_fault_contradicts_the_reveal_of_a_foot_with_one(level: Level, fault: Fault) -> None:
    assert told_otherwise(FaultyFoot(0.6, 4, fault), level, 5) == []


@pytest.mark.parametrize(
    "level",
    [level for level in LEVELS.values() if "dip" in level.limits],
    ids=lambda level: level.id,
)
def test_a_brake_that_left_before_the_throttle_is_an_early_roll_to_both(level: Level) -> None:
    measures = {"base": 60.0, "dip": 40.0, "dip_1": 40.0, "dip_at": 0.1, "lead": 0.2, "early": 8.0}
    measures |= {"onset": 1.0, "end": 1.3, "peak": 60.0, "offset": -20.0, "rebound": 20.0}
    verdict = Verdict(Reason.OVER_LIMIT, 20.0, ("dip",), measures, worst="dip")

    assert level.kind.remark(level, verdict).topic == early.TOPIC
    assert level.kind.fault(verdict) is Fault.EARLY_ROLL


@pytest.mark.parametrize(
    "level",
    [level for level in LEVELS.values() if "dip" in level.limits],
    ids=lambda level: level.id,
)
def test_a_dip_that_began_with_a_push_is_told_with_the_push(level: Level) -> None:
    measures = {"base": 60.0, "dip": 24.0, "dip_1": 24.0, "dip_at": 0.2, "surge": 12.0}
    measures |= {"surge_at": -0.1, "rebound": 1.0, "lead": -0.05, "early": -9.0, "offset": 0.0}
    measures |= {"onset": 1.0, "end": 1.3, "peak": 60.0}
    verdict = Verdict(Reason.OVER_LIMIT, 20.0, ("dip",), measures, worst="dip")

    assert set(level.kind.comment(level, verdict).sentences) <= PUSHED
    assert level.kind.fault(verdict) is Fault.BRACING
    assert level.kind.lean(level, verdict) == -1.0
