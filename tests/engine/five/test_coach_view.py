"""The coach's page: sentence, cue, picture and levels, and that they say the same."""

from dataclasses import replace

import pytest

from drills.fault import Fault
from engine.date_words import day_words
from engine.five.coach_screen import CoachChoice, CoachScreen
from engine.five.coach_view import CoachView, coach_now, coach_view
from engine.five.coach_words import halved_words, least_told, levels_words
from engine.kit import theme
from engine.kit.deciding_lines import NUMBER
from engine.practice.diagnosis import FaultShare, diagnose
from engine.practice.focus import FocusChange, FocusStep, Halved
from engine.practice.remeasuring import Remeasuring
from engine.progress.history_pages import PAGES
from engine.progress.progress import Progress
from engine.stage.actions import Action
from tests.engine.five.coach_pictures import FEW, NO_TRACES, NOTHING, SINCE, focus, view
from tests.engine.kit.recording_canvas import recorded, said
from tests.made import level
from tests.stored import in_memory

FAULTS = pytest.mark.parametrize("fault", list(Fault))
OF_THE_THROTTLE = (Fault.BIG, Fault.SLOW)


def test_the_page_says_one_sentence_one_cue_and_the_levels() -> None:
    texts = said(CoachScreen(view(Fault.EARLY_ROLL)))

    assert "14 of your last 40: the brake leaves before the throttle." in texts
    assert "Bold: typical of 8 such blips. Thin: 4 without" in texts
    assert any(one.startswith("Practise: First blip") for one in texts)
    assert "Early roll" in texts


@FAULTS
def test_every_fault_has_a_number_in_its_picture(fault: Fault) -> None:
    found = view(fault).curves
    assert found is not None

    canvas = recorded(CoachScreen(view(fault)))

    [_, number] = [text for text in canvas.texts if text.size == NUMBER]  # below the heading
    worst = found.typical.worst
    assert worst is None or worst.label == number.text
    curves = [points for colour, points in canvas.curves if colour == theme.EARLIER]
    assert len(curves) == len(found.without)
    assert not any(number.ink.collidepoint(*at) for points in curves for at in points)


@pytest.mark.parametrize("fault", [one for one in Fault if one not in OF_THE_THROTTLE])
def test_the_number_in_the_picture_lies_on_no_curve(fault: Fault) -> None:
    drawn = recorded(CoachScreen(view(fault)))
    found = view(fault).curves
    assert found is not None
    worst = found.typical.worst
    assert worst is not None

    [number] = [text.ink for text in drawn.texts if text.text == worst.label]

    assert len(drawn.curves) > 1
    on = [point for _, points in drawn.curves for point in points if number.collidepoint(point)]
    assert on == []


def test_where_nothing_stands_out_the_page_says_what_would() -> None:
    texts = said(CoachScreen(NOTHING))

    assert "Nothing stands out in your last 40 blips." in texts
    assert f"One fault in {least_told(40)} of 40, ahead of all others, would." in texts


def test_what_would_stand_out_is_what_the_rule_says() -> None:
    least = least_told(30)

    assert diagnose([Fault.DIP] * least + [None] * (30 - least)) is not None
    assert diagnose([Fault.DIP] * (least - 1) + [None] * (31 - least)) is None


def test_too_few_blips_are_counted() -> None:
    texts = said(CoachScreen(FEW))

    assert {"12 of 20 blips.", "comes with 20 blips"} <= set(texts)


def test_without_traces_the_sentence_stands_and_the_picture_says_why_it_is_missing() -> None:
    texts = said(CoachScreen(NO_TRACES))

    assert "14 of your last 40: the brake falls with the throttle." in texts
    assert "The curves of these blips cannot be drawn." in texts


def test_the_levels_that_answer_it_are_the_hardest_passed_and_then_the_open_ones() -> None:
    dip = (Fault.DIP,)
    levels = [
        level(id="a", title="A", answers=dip),
        level(id="b", title="B", answers=dip, needs=("a",)),
        level(id="c", title="C", answers=(Fault.LIGHT,)),
        level(id="d", title="D", answers=dip, needs=("b",)),
    ]
    found = [(number, Fault.DIP) for number in range(1, 31)]
    worked_on = FocusStep(FocusChange.TOLD, focus(Fault.DIP))

    with in_memory() as history:
        titles = [
            coach_view(history, worked_on, found, levels, frozenset(done)).titles
            for done in ("", "a", "abc")
        ]

    assert titles == [("A",), ("A", "B"), ("B", "A", "D")]


def test_a_fault_that_stands_out_again_soon_after_it_halved_is_said_to_settle() -> None:
    found = [(number, Fault.DIP if number % 2 else None) for number in range(1, 41)]
    halved = FocusStep(FocusChange.HALVED, None, halved=Halved(Fault.DIP, SINCE))

    with in_memory() as history:
        view = coach_view(history, halved, found, [level(answers=(Fault.DIP,))], frozenset())
        other = coach_view(history, halved, [(1, Fault.LIGHT)] * 40, [], frozenset())

    assert (view.fault, view.focus, view.titles) == (Fault.DIP, None, ())
    assert view.lead == "20 of your last 40: the brake falls with the throttle."
    assert view.line == f"It halved on {day_words(SINCE)}: let it settle."
    assert other.lead == "Nothing stands out in your last 40 blips."


def test_levels_that_have_no_room_are_left_out_from_the_end() -> None:
    assert [*levels_words(("A", "B", "C", "D"))] == [
        "Practise: A, B",
        "Practise: A",
    ]
    assert [*levels_words(())] == []


def test_the_first_share_is_said_once_it_has_changed() -> None:
    same = CoachView(40, focus(Fault.DIP, was=14, now=14))

    assert view(Fault.DIP).more == ("It was 22 of 40.",)
    assert same.more == ()


def test_an_empty_history_has_no_blips_yet() -> None:
    with in_memory() as history:
        assert coach_now(history, [level()]) == CoachView(0)


def test_the_page_of_the_history_names_the_levels_among_its_figures() -> None:
    told = Progress(SINCE, coach=view(Fault.EARLY_ROLL))

    assert PAGES["coach"].printed(told) == [
        "14 of your last 40: the brake leaves before the throttle.",
        view(Fault.EARLY_ROLL).line,
        "It was 22 of 40.",
        "Practise: First blip, Closer",
    ]
    assert PAGES["coach"].printed(replace(told, coach=FEW)) == ["12 of 20 blips."]


def test_while_the_history_is_remeasured_the_page_says_when_it_comes() -> None:
    waits = Progress(SINCE, remeasuring=Remeasuring(3, 40))

    assert PAGES["coach"].printed(waits) == []
    assert PAGES["coach"].missing(waits) == Remeasuring(3, 40).comes


def test_a_halved_fault_is_said_with_the_number_it_had() -> None:
    was, now = FaultShare(Fault.EARLY_ROLL, 22, 40), FaultShare(Fault.EARLY_ROLL, 11, 40)

    assert halved_words(was, now) == "Early roll: 11 of 40, was 22. Halved."
    assert halved_words(FaultShare(was.fault, 15, 24), now) == (
        "Early roll: 11 of 40, was 15 of 24. Halved."
    )


@pytest.mark.parametrize(
    "action", [Action.GO, Action.NEXT, Action.PREVIOUS, Action.BACK, Action.MENU]
)
def test_the_screen_goes_on_at_any_tap(action: Action) -> None:
    screen = CoachScreen(view(Fault.DIP))

    screen.on_action(action)

    assert screen.outcome is CoachChoice.ON
