"""Word, bubble, sound, sentence, figures and picture of random zones say the same of each."""

import re

import numpy as np
import pytest

from drills.kinds.run_words import ORDINAL
from drills.score import WEIGHED, Reason, weigh
from engine.drill.reveal_figures import figures
from engine.drill.verdict_sound import earcon_of
from engine.stage.earcon import Earcon
from tests.drills.kinds.agreement import contradictions, leaning_of, wrong_amount
from tests.drills.kinds.driven_zone import Foot, driven, random_zone

SEEDS = range(60)
SIDES = {Earcon.DIP: -1, Earcon.SURGE: 1}

each = pytest.mark.parametrize("seed", SEEDS)


@each
def test_all_parts_of_what_is_told_of_a_zone_agree(seed: int) -> None:
    one = random_zone(seed)
    level, verdict = one.level, one.verdict

    leans = 0 if verdict.clean else leaning_of(one.said)
    row = figures(level, verdict)

    assert (one.lean or 0) == leans, one.said
    assert verdict.clean or SIDES.get(earcon_of(level, verdict), 0) == leans, one.said
    assert one.remark.topic.endswith(", clean") == verdict.clean, one.said
    assert any(figure.failed for figure in row) != verdict.clean, one.said
    assert not wrong_amount(level, verdict, one.said), one.said
    assert contradictions(level, verdict, one.picture) == [], one.said


@each
def test_the_mark_on_a_zone_goes_the_way_of_its_bubble(seed: int) -> None:
    one = random_zone(seed)
    picture, verdict = one.picture, one.verdict
    if picture is None or verdict.reason is not Reason.OVER_LIMIT or picture.worst is None:
        return

    assert np.sign(picture.worst.deviation) == one.lean
    assert abs(picture.worst.deviation) == pytest.approx(
        abs(verdict.amount(verdict.worst)), abs=0.3
    )


@each
def test_the_blip_that_a_sentence_names_is_the_one_that_decided(seed: int) -> None:
    one = random_zone(seed)
    for said in one.remark.sentences:
        found = re.search(rf"\b({'|'.join(ORDINAL)}) blip", said, re.I)
        name = one.verdict.worst
        if found and name in ("dip", "lateness"):
            sizes = [abs(one.verdict.amount(f"{name}_{place}")) for place in (1, 2, 3, 4)]
            assert sizes.index(max(sizes)) == ORDINAL.index(found[1].lower()), said


def test_random_zones_are_clean_and_missed_in_many_ways() -> None:
    verdicts = [random_zone(seed).verdict for seed in SEEDS]

    weighed = [verdict for verdict in verdicts if verdict.reason in WEIGHED]
    assert len({verdict.worst for verdict in weighed if verdict.over}) >= 6
    assert any(verdict.clean for verdict in weighed)


@pytest.mark.parametrize("name", ["line_error", "line_worst", "reversals"])
def test_a_line_of_which_the_blips_left_too_little_is_told_so(name: str) -> None:
    level = driven(Foot(), {name: 3.0}).level
    verdict = driven(Foot(), {name: 3.0}).verdict
    unjudged = {**verdict.measures, "line_error": None, "line_worst": None, "reversals": None}

    remark = level.kind.remark(level, weigh(unjudged, level.limits))

    assert all(re.search(r"little line|no line", said) for said in remark.sentences)
