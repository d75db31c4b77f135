"""Remarks in a row: none in the same words, another cue after two like faults."""

from itertools import pairwise

import pytest

from drills.remark import Remark
from engine.drill.remarks import ShownRemarks

DIP = Remark("dip", ("It fell.", "The brake fell."), ("Stay heavy.", "Feel the same pressure."))
END = Remark("offset", ("It ended light.", "It came back short."), ("Come back.",))
MIXED_UP = Remark("settle", ("It fell.", "It was slow."), ("Come back once.",))
CLEAN = Remark("dip, clean", ("Quiet.", "Hardly a dip."), ("Once more.", "Even quieter."), 1)
ONE_WORDING = Remark("gap", ("The pedals could not be read.",))


def shown(*remarks: Remark) -> list[tuple[str, str]]:
    """Sentence and cue of remarks that are shown one after another."""
    memory, said = ShownRemarks(), []
    for remark in remarks:
        repeats = memory.repeats(remark)
        said.append((remark.sentence(repeats), remark.cue(repeats)))
    return said


def test_after_two_like_faults_another_cue_is_given() -> None:
    cues = [cue for _, cue in shown(DIP, DIP, DIP, DIP, DIP)]

    assert cues == [
        *["Stay heavy."] * 2,
        *["Feel the same pressure."] * 2,
        "Stay heavy.",
    ]


def test_a_topic_that_comes_back_goes_on_with_its_next_words() -> None:
    said = shown(DIP, END, DIP, END, DIP)

    assert said[::2] == [
        ("It fell.", "Stay heavy."),
        ("The brake fell.", "Stay heavy."),
        ("It fell.", "Feel the same pressure."),
    ]


def test_a_clean_repetition_is_given_another_nudge_each_time() -> None:
    cues = [cue for _, cue in shown(CLEAN, CLEAN, CLEAN)]

    assert cues == ["Once more.", "Even quieter.", "Once more."]


def test_two_topics_in_a_row_have_no_cue_in_the_same_words() -> None:
    like_the_dip = Remark("surge", ("It rose.", "Up it went."), ("Stay heavy.", "Wait."))

    cues = [cue for _, cue in shown(DIP, like_the_dip, DIP, like_the_dip, DIP)]

    assert all(one != following for one, following in pairwise(cues))


@pytest.mark.parametrize("order", [(DIP,) * 6, (DIP, MIXED_UP) * 3, (END, DIP, MIXED_UP, DIP) * 2])
def test_no_sentence_is_shown_twice_in_a_row(order: tuple[Remark, ...]) -> None:
    sentences = [sentence for sentence, _ in shown(*order)]

    assert all(one != following for one, following in pairwise(sentences))


def test_a_remark_with_one_wording_is_said_again_as_it_is() -> None:
    assert shown(ONE_WORDING, ONE_WORDING) == [("The pedals could not be read.", "")] * 2
