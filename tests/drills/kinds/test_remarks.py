"""What is said of a repetition is short, true, never the same twice, and agrees with the figure."""

import re
from collections.abc import Iterator
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drills.kinds.asked_size import with_size
from drills.kinds.early import TOPIC, is_early
from drills.level import Level
from drills.measures.disturbance import RELEASED
from drills.measures.early import EARLY_LEAST
from drills.remark import LIKE
from drills.score import Reason, Verdict
from tests.drills.kinds.agreement import leaning_of, wrong_amount
from tests.drills.kinds.verdicts import LEVELS, LIMITED, verdicts

MOST_WORDS = 12
IN_A_ROW = 13
ABSENT = ("ball of the foot", "ankle", "edge", "your foot", "toe", "heel", "the leg")
"""Parts of the body that a cue does not name: attention belongs on what they do."""

each = pytest.mark.parametrize("kind", LEVELS)


def drawn(data: st.DataObject, kind: str) -> tuple[str, Level, Verdict]:
    """A limited measure of a kind, a level that limits it, and a random verdict."""
    name = data.draw(st.sampled_from([name for of, name in LIMITED if of == kind]))
    return (name, *data.draw(verdicts(kind, name)))


def sentences(text: str) -> Iterator[str]:
    """The sentences of a text."""
    return (one for one in re.split(r"(?<=[.?!]) ", text) if one)


@each
@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_a_remark_is_short_and_never_the_same_twice_in_a_row(
    kind: str, data: st.DataObject
) -> None:
    _, level, verdict = drawn(data, kind)
    remark = level.kind.remark(level, verdict)
    row = [(remark.sentence(count), remark.cue(count)) for count in range(IN_A_ROW)]

    assert all(before != after for before, after in pairwise(row))
    for text in {text for pair in row for text in pair}:
        assert text.endswith(".")
        assert text[0].isupper() or text[0].isdigit()
        assert all(len(one.split()) <= MOST_WORDS for one in sentences(text)), text
    assert remark.sentence(0) != remark.sentence(1)
    stays = 1 if verdict.clean else LIKE
    assert remark.cue(0) == remark.cue(stays - 1) != remark.cue(stays)
    assert not any(part in cue for part in ABSENT for cue in remark.cues)


@each
@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_a_remark_is_about_what_decided_and_leaves_its_number_to_the_figure(
    kind: str, data: st.DataObject
) -> None:
    name, level, verdict = drawn(data, kind)
    remark, figure = level.kind.remark(level, verdict), level.kind.headline(level, verdict)

    early = TOPIC if name == "dip" and early_in(kind, verdict) and not verdict.clean else name
    assert remark.topic == (f"{name}, clean" if verdict.clean else early)
    assert figure is not None
    shown, allowed = numbers(figure.value)[0], numbers(figure.words)[-1]
    assert (shown > allowed) == (not verdict.clean)
    assert not any(wrong_amount(level, verdict, said) for said in remark.sentences)


def numbers(text: str) -> list[float]:
    """The numbers in a text."""
    return [float(number) for number in re.findall(r"\d+(?:\.\d+)?", text)]


def early_in(kind: str, verdict: Verdict) -> bool:
    """Whether the brake left before the throttle, as the kind measures it."""
    return verdict.amount("early") > EARLY_LEAST if kind in ("trail", "zone") else is_early(verdict)


def claims(level: Level, verdict: Verdict, said: str) -> Iterator[tuple[str, bool]]:
    """What a sentence claims of the measures, and whether it is so."""
    name = verdict.worst
    value, at = verdict.amount(name), verdict.amount("dip_at" if name == "dip" else "surge_at")
    pulse = verdict.amount("end") - verdict.amount("onset")
    signed = {"offset", "base_error", "constant_error", "drift"}
    held = {"total_error"} if abs(verdict.amount("constant_error")) else set()
    side = verdict.amount("constant_error") if name in held else value
    if re.search(r"hardly|next to n|almost|right on|very near", said, re.I):
        yield "next to nothing", abs(value) < 2.0
    if name in signed | held and re.search(r"\blight(er)?\b|short of its weight", said):
        yield "light", side < 0 or verdict.amount("drift") < 0
    if name in signed | held and re.search(r"\b(?<!as )heav(y|ier)\b|more than its old", said):
        yield "heavy", side > 0 or verdict.amount("drift") > 0
    if level.kind.name in ("blip", "run", "clutch") and name in ("dip", "surge"):
        early = name == "dip" and is_early(verdict)
        if re.search(r"before the (throttle|blip)|ahead of the|fell most before", said):
            yield "before", early or at < 0
        if re.search(
            r"after the (blip|first|second|third|fourth)|once the|over, the|closed again", said
        ):
            yield "after", at > pulse
        if (
            re.search(r"during|with the (blip|throttle(?! closed))|throttle took", said)
            and not early
        ):
            yield "during", 0 <= at <= pulse + 0.05 + 1e-9
    if re.search(r"altogether|was off|then gone", said) and name == "dip":
        yield "off", 60.0 - verdict.amount("dip") < RELEASED
    for place, word in enumerate(("first", "second", "third", "fourth"), start=1):
        if name == "dip" and re.search(rf"\b{word} (blip )?(cost|took)|most .*{word} blip", said):
            dips = [verdict.amount(f"dip_{other}") for other in (1, 2, 3, 4)]
            yield f"{word} took most", dips[place - 1] == max(dips)
        if name == "lateness" and f"{word} blip" in said.lower():
            late = [abs(verdict.amount(f"lateness_{other}")) for other in (1, 2, 3, 4)]
            yield f"{word} was farthest off", late[place - 1] == max(late)
    if re.search(r"grew from blip|every blip took more", said, re.I):
        found = [verdict.measures.get(f"dip_{other}") for other in (1, 2, 3, 4)]
        grown = [dip for dip in found if dip is not None]
        yield "grew", grown == sorted(grown) and grown[0] < grown[-1]


@each
@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_what_a_sentence_claims_is_true_of_the_measures(kind: str, data: st.DataObject) -> None:
    _, level, verdict = drawn(data, kind)

    for said in level.kind.remark(level, verdict).sentences:
        for claim, holds in claims(level, verdict, said):
            assert holds, (said, claim, verdict.measures)


@each
@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_the_bubble_leans_the_way_the_sentence_says(kind: str, data: st.DataObject) -> None:
    _, level, verdict = drawn(data, kind)
    lean, remark = level.kind.lean(level, verdict), level.kind.remark(level, verdict)

    assert (lean or 0) == (0 if verdict.clean else leaning_of(remark.sentence())), remark


@pytest.mark.parametrize("kind", LEVELS)
def test_no_sentence_belongs_to_two_topics_of_a_kind(kind: str) -> None:
    topics: dict[str, str] = {}

    @settings(max_examples=60, deadline=None, database=None, derandomize=True)
    @given(data=st.data())
    def collect(data: st.DataObject) -> None:
        _, level, verdict = drawn(data, kind)
        remark = level.kind.remark(level, verdict)
        for said in remark.sentences:
            assert topics.setdefault(said, remark.topic) == remark.topic

    collect()
    assert len(topics) > 15


@pytest.mark.parametrize("reason", [reason for reason in Reason if reason.void], ids=str)
def test_a_void_repetition_is_told_why_in_few_words_and_has_no_figure(reason: Reason) -> None:
    level = with_size(LEVELS["blip"], 60.0)
    verdict = Verdict(reason, measures={"peak": 92.0} if reason is Reason.OFF_SIZE else {})
    remark = level.kind.remark(level, verdict)

    assert level.kind.headline(level, verdict) is None
    assert remark.topic == reason.value
    assert len(set(remark.sentences)) >= 2
    assert remark.cues
    for text in (*remark.sentences, *remark.cues):
        assert all(len(one.split()) <= MOST_WORDS for one in sentences(text)), text
