"""Every made shift, run and way down: verdict, words, bubble, figures and picture agree."""

import pytest

from tests.drills.kinds import (
    clutch_cases,
    run_cases,
    shift_cases,
    trail_cases,
    trail_faults,
    zone_cases,
)
from tests.drills.kinds.agreement import contradictions, wrong_amount
from tests.drills.kinds.clutch_cases import Case as Shift
from tests.drills.kinds.driven_zone import Case as Zone
from tests.drills.kinds.run_case import Case as Run
from tests.drills.kinds.shift_cases import Case as ByHand
from tests.drills.kinds.trail_case import Case as WayDown

Case = Shift | Run | WayDown | ByHand | Zone
CASES: dict[str, Case] = {
    f"{kind}: {case.name}": case
    for kind, cases in (
        ("clutch", clutch_cases.CASES),
        ("run", run_cases.CASES),
        ("shift", shift_cases.ASKED),
        ("trail", (*trail_cases.CASES, *trail_faults.FAULTS)),
        ("zone", zone_cases.CASES),
    )
    for case in cases
}
each = pytest.mark.parametrize("case", CASES.values(), ids=CASES)


@each
def test_a_repetition_is_judged_and_told_by_what_was_done(case: Case) -> None:
    one = case.made

    assert one.verdict.reason is case.reason
    assert one.said == case.said
    assert one.lean == case.lean


@each
def test_figures_picture_and_praise_agree_with_the_verdict(case: Case) -> None:
    one = case.made

    assert contradictions(one.level, one.verdict, one.picture) == []
    assert not wrong_amount(one.level, one.verdict, one.said)
    assert one.remark.topic.endswith(", clean") == one.verdict.clean
    assert any(figure.failed for figure in one.figures) != one.verdict.clean
