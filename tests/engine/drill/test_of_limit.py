"""What a reveal and the end of a set say of a personal limit."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from drills.score import Reason, Verdict, weigh
from engine.drill.reveal import Reveal
from engine.drill.reveal_facts import RevealFacts
from engine.drill.reveal_words import of_limit_words
from engine.drill.set_end import SetEnd
from engine.drill.set_log import SetLog, set_tally
from engine.kit.base import Place
from engine.store import History
from tests.engine.drill.test_retention_by_set import NEXT_DAY, PASSED, record_of
from tests.engine.kit.recording_canvas import said
from tests.made import BLIP, level

LEVEL = level(limits={"dip": 15.0, "reaction": 0.5})


@pytest.mark.parametrize(
    ("measures", "words"),
    [
        ({"dip": 7.2, "reaction": 0.1}, "0.47 of the limit"),  # 7 of 15, as the figure reads
        ({"dip": 0.3, "reaction": 0.24}, ""),
        ({"dip": 0.2, "reaction": 0.0}, "0.00 of the limit"),
        ({"dip": 18.0, "reaction": 0.1}, "1.20 of the limit"),
        ({"dip": 7.2, "reaction": 0.4}, ""),  # the reveal is about the dip
        ({"dip": 15.03, "reaction": 0.1}, ""),  # over its limit, and would not read so
        ({"dip": None, "reaction": 0.1}, ""),
    ],
)
def test_the_line_is_of_the_measure_that_the_reveal_is_about(
    measures: dict[str, float | None], words: str
) -> None:
    assert of_limit_words(LEVEL, weigh(measures, LEVEL.limits)) == words


def test_what_was_not_done_has_no_share_of_the_limit() -> None:
    assert of_limit_words(LEVEL, weigh({"dip": 7.2}, LEVEL.limits, Reason.NO_BLIP)) == ""
    assert of_limit_words(LEVEL, Verdict(Reason.GAP)) == ""


def test_the_reveal_says_it_once_and_keeps_its_one_figure() -> None:
    verdict = weigh({"dip": 7.2, "reaction": 0.1}, LEVEL.limits)
    facts = RevealFacts(LEVEL, verdict, None, (), Place(1, 10))

    plain = said(Reveal(facts))
    asked = said(Reveal(replace(facts, of_limit="0.48 of the limit")))

    assert [text for text in asked if text not in plain] == ["0.48 of the limit"]


def end_of(history: History, count: int, days: int) -> SetEnd:
    """End of a set of clean repetitions, some days after the level was passed."""
    log, at = SetLog(BLIP, history), PASSED + timedelta(days=days)
    for _ in range(count):
        log.add(record_of(at, clean=True))
    return SetEnd(BLIP, set_tally(log, lambda: at), BLIP)


def test_the_end_of_a_set_says_the_personal_limit_of_a_retained_level(history: History) -> None:
    passed, retained = end_of(history, 10, 0), end_of(history, 9, (NEXT_DAY - PASSED).days)
    later = [end_of(history, 9, days) for days in (2, 3)]

    def told(end: SetEnd) -> list[str]:
        return [text for text in said(end) if "limit" in text]

    assert told(passed) == []
    assert "Personal limit: 18 of 36 repetitions." in " ".join(told(retained))
    assert "Personal limit: 27 of 36 repetitions." in " ".join(told(later[0]))
    assert "0.51 of the limit now." in " ".join(told(later[1]))
    assert later[1].details()["personal"] == "0.51 of the limit now."
