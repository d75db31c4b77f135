"""Screens of the setup with contents as they come up in play, for tests that draw them."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any, TypeVar

from drills.calibration import Calibration, Range
from drills.trace import Pedal, Sample
from engine.kit.base import Screen
from engine.pedals.bound import Binding, BoundAxis, BoundButton
from engine.pedals.finder import Found
from engine.pedals.identity import Axis, Identity
from engine.pedals.moved_ends import End, MovedEnd
from engine.pedals.sdl import Unopened
from engine.setup.choice_screens import (
    PedalMenu,
    PedalsFound,
    SavedPedalsBack,
    SoftPress,
    WhichPedals,
)
from engine.setup.finding_screens import FeetOff, FindPedal, Retry
from engine.setup.no_pedals import NoPedals, NothingPlugged
from engine.setup.renewal_screens import EndMoved, SetFullAnew, SetRestAnew
from engine.setup.rig_screens import KeepAs, OneRig, RemoveRig, RigList, RigName, WhichRig
from engine.setup.rigs import NAME_LONGEST, NOTE_LONGEST, NamedRig, why_not_named
from engine.setup.search import Search, SearchEnd
from engine.setup.shift_screen import ShiftMenu
from engine.setup.unopened import unopened_words
from engine.setup.words import RESTART_NOTES, heading
from engine.stage.actions import Action

LONG = "Quiet Works Wheel Base of nine Newton metres (its fourth model)"
UNOPENED = unopened_words([Unopened(LONG, denied=False)])
DENIED = unopened_words([Unopened(LONG, denied=True)])
BOTH = unopened_words([Unopened(LONG, denied) for denied in (True, False, False)])
DEVICE = "Quiet Works Pedal Set (three load cells)"
AXIS, SECOND_AXIS, WHEEL = Axis(0, 0), Axis(0, 1), Axis(1, 0)
WHOLE = Range(-1.0, 1.0)
THREE = Identity("0" * 28, DEVICE, 8, 0, 1)
RIGS = [
    NamedRig(1, "home", "", Binding(BoundAxis(THREE, 1, WHOLE), BoundAxis(THREE, 0, WHOLE))),
    NamedRig(
        2,
        "W" * NAME_LONGEST,
        "W" * NOTE_LONGEST,
        Binding(*(BoundAxis(THREE, axis, WHOLE) for axis in (1, 0, 2))),
    ),
]
SHIFTER = BoundButton(Identity("1" * 28, LONG, 0, 1, 2), 11)
SHIFTING = replace(RIGS[1], binding=replace(RIGS[1].binding, shift=SHIFTER))
MANY_RIGS = [replace(RIGS[0], number=number, name=f"rig {number}") for number in range(1, 13)]
Renewing = TypeVar("Renewing", SetRestAnew, SetFullAnew)
HEALTH_LINE = "Brake: steps of 0.028 %, noise 0.051 points, 125 reports a second"
TOO_SLOW = "Too slow to judge: 100 ms between reports, 40 ms at most."
NAMES = {0: DEVICE, 1: "Quiet Works Wheel Base (nine Newton metres)"}


def search(
    values: Mapping[Axis, float], found_range: Range | None = None, came: bool = False
) -> Search:
    """A search over some raw values; `found_range` is that of a brake found on AXIS."""

    def called(axis: Axis) -> str:
        return Identity("0" * 28, NAMES.get(axis.device, DEVICE), 8, 0, 1).called(axis.axis)

    state = Search(lambda: values, called, lambda: came)
    if found_range is not None:
        state.found[Pedal.BRAKE] = Found(AXIS, found_range)
    state.noise = dict.fromkeys(values, 0.0)
    state.presses.rest(values, tuple(values))
    return state


def fed(
    screen: FeetOff | FindPedal,
    values: dict[Axis, float],
    course: Sequence[Mapping[Axis, float]],
    seconds: float = 2.0,
) -> None:
    """Feed a screen the values in turn, a hundred times a second, each for so many seconds."""
    now = 0
    for moved in course:
        values.update(moved)
        for _ in range(round(100 * seconds)):
            now += 10_000_000
            if screen.outcome is None:
                screen.on_sample(None, now)


def moves(*places: float, axis: Axis = AXIS) -> list[Mapping[Axis, float]]:
    """Raw values of one axis that moves to one place after another."""
    return [{axis: place} for place in places]


def finding(
    pedal: Pedal,
    course: Sequence[float | Mapping[Axis, float]],
    taken: Range | None = None,
    note: str = "",
) -> FindPedal:
    """A screen that searches for a pedal and has seen an axis move through some places."""
    steps = [step if isinstance(step, Mapping) else {AXIS: step} for step in course]
    values = {AXIS: -1.0, **(steps[0] if steps else {})}
    screen = FindPedal(pedal, search(values, taken), note)
    fed(screen, values, steps)
    return screen


def feet_off(
    course: Sequence[float | Mapping[Axis, float]], found_range: Range | None = None, note: str = ""
) -> FeetOff:
    """A screen that waits for the feet to be off and has seen some values in turn."""
    values = {AXIS: 0.0}
    screen = FeetOff(search(values, found_range), heading(Pedal.THROTTLE), note)
    fed(screen, values, [step if isinstance(step, Mapping) else {AXIS: step} for step in course])
    return screen


def restless(axis: Axis, about: float, found_range: Range | None = None) -> FeetOff:
    """A screen that has waited 3.5 s for an axis that keeps moving."""
    values = {AXIS: -1.0, axis: about}
    screen = FeetOff(search(values, found_range), heading(Pedal.BRAKE))
    for step in range(350):
        values[axis] = about + 0.2 * (step % 2)
        screen.on_sample(None, step * 10_000_000)
    return screen


def trembling() -> FindPedal:
    """A screen that has waited 3.5 s for a pedal that does not come to rest."""
    values = {AXIS: -1.0}
    screen = FindPedal(Pedal.BRAKE, search(values))
    for step in range(450):
        values[AXIS] = -1.0 if step < 50 else 1.0 - 0.3 * (step % 2)
        screen.on_sample(None, step * 10_000_000)
    return screen


def shift_found(before: BoundButton | None = None) -> ShiftMenu:
    """The question for the shift button after it was pressed; `before` is the one bound before."""
    screen = ShiftMenu(lambda: SHIFTER, before)
    screen.on_sample(None, 0)
    return screen


def asked(found_range: Range | None = None, doubted: Axis | None = None) -> PedalMenu:
    """The menu opened while the brake is set up."""
    state = search({AXIS: -1.0}, found_range)
    state.doubted = doubted
    return PedalMenu(state, Pedal.BRAKE)


def found(lines: Mapping[Pedal, str], throttle: float = 0.0, health: str = "") -> PedalsFound:
    """The menu after all pedals are found, with the throttle held at a % for two seconds."""
    screen = PedalsFound(lines, health)
    for step in range(200):
        screen.on_sample(Sample(step * 10_000_000, 62.0, throttle, 30.0), step * 10_000_000)
    return screen


MOVED = MovedEnd(Pedal.THROTTLE, End.REST, 6.4)
SCALE = Calibration(WHOLE, WHOLE, WHOLE)


def moved(samples: Sequence[Sample], screen: Renewing) -> Renewing:
    """The screen after some samples, each for a second."""
    for number, sample in enumerate(samples):
        for step in range(100):
            now = (100 * number + step) * 10_000_000
            screen.on_sample(replace(sample, time=now), now)
    return screen


def renewal_screens() -> Mapping[str, Screen[Any]]:
    """Screens that set one end of a pedal anew, by name."""
    off, soft, hard = Sample(0, 1.0, 6.4, 0.5), Sample(0, 92.0, 6.4), Sample(0, 119.0, 6.4)
    shaken = replace(off, brake=8.0)
    return {
        "rest moved": EndMoved(MOVED),
        "rest moved below": EndMoved(MovedEnd(Pedal.BRAKE, End.REST, -7.0)),
        "full passed": EndMoved(MovedEnd(Pedal.BRAKE, End.FULL, 118.0)),
        "rest anew": moved([off], SetRestAnew(SCALE, MOVED)),
        "rest anew, pressed": moved([off, hard], SetRestAnew(SCALE, MOVED)),
        "rest anew, restless": moved([off, shaken] * 3, SetRestAnew(SCALE, MOVED)),
        "full anew": moved([off], SetFullAnew(SCALE)),
        "full anew, pressed": moved([off, hard], SetFullAnew(SCALE)),
        "full anew, once more": moved([off, hard, off], SetFullAnew(SCALE)),
        "full anew, unlike": moved([off, soft, off, hard, off], SetFullAnew(SCALE)),
    }


def binding_screens() -> Mapping[str, Screen[Any]]:
    """Screens of the setup by name."""
    brake, throttle, clutch = Pedal
    lines = {brake: f"axis 2 of {DEVICE}", throttle: f"axis 1 of {DEVICE}"}
    three = {**lines, clutch: f"axis 3 of {DEVICE}"}
    pressed = (-1.0, 1.0, -1.0)
    rests = [{AXIS: -1.0, WHEEL: 0.02}]
    refusing = finding(brake, [{AXIS: -1.0, WHEEL: 0.02}, {WHEEL: 0.6}])
    refusing.on_action(Action.NEXT)
    assert isinstance(refusing.outcome, Retry)
    left_out = FindPedal(brake, search({AXIS: -1.0, WHEEL: 0.1}))
    left_out._search.left_out = [WHEEL, SECOND_AXIS]
    unopened = finding(brake, (-1.0, -1.0, -1.0))
    unopened._search.unopened = lambda: BOTH
    one_unopened = finding(brake, (-1.0,))
    one_unopened._search.unopened = lambda: UNOPENED
    clutch_unopened = finding(clutch, (-1.0, -1.0, -1.0), WHOLE)
    clutch_unopened._search.unopened = lambda: DENIED
    feet_off_unopened = feet_off((), note=RESTART_NOTES[SearchEnd.PRESSED])
    feet_off_unopened._search.unopened = lambda: BOTH
    unfocused = finding(brake, (-1.0,))
    unfocused.on_focus(False, 0)
    return {
        "feet off": feet_off(()),
        "feet off with a brake": feet_off((-1.0,), WHOLE),
        "feet off again": feet_off((), note=RESTART_NOTES[SearchEnd.PRESSED]),
        "feet off refused": feet_off((), note=refusing.outcome.note),
        "brake pressed": feet_off((1.0, 1.0), WHOLE),
        "wheel keeps moving": restless(WHEEL, 0.0),
        "floating axis": restless(SECOND_AXIS, -0.8, WHOLE),
        "brake keeps moving": restless(AXIS, -0.9, WHOLE),
        "find brake": finding(brake, (-1.0,)),
        "find brake unfocused": unfocused,
        "find brake left out": left_out,
        "nothing moves": finding(brake, (-1.0, -1.0, -1.0)),
        "tiny": finding(brake, (-1.0, -0.9, -0.9, -0.9)),
        "turns": finding(brake, [*rests, {WHEEL: 0.3}, {WHEEL: -0.2}]),
        "release brake": finding(brake, (-1.0, 1.0)),
        "full brake": finding(brake, pressed),
        "full in the middle": finding(brake, [{WHEEL: 0.02}, *moves(0.7, 0.02, axis=WHEEL)]),
        "full idle": finding(brake, (*pressed, -1.0, -1.0)),
        "full weak": finding(brake, (*pressed, 0.5)),
        "full too weak": finding(brake, (*pressed, 0.0)),
        "full of another": finding(brake, [*rests, *moves(0.8, 0.02, axis=WHEEL), {AXIS: 0.9}]),
        "stuck brake": finding(brake, (-1.0, 1.0, 1.0, 1.0)),
        "trembling brake": trembling(),
        "release again": finding(brake, (*pressed, 1.0, 0.7)),
        "returns": finding(brake, (*pressed, 1.0, -0.86)),
        "find clutch": finding(clutch, (-1.0,), WHOLE),
        "find clutch in vain": finding(clutch, (-1.0, -1.0, -1.0), WHOLE),
        "clutch that shares": finding(clutch, (0.02, 1.0), Range(0.02, -1.0)),
        "taken": finding(throttle, (-1.0, 1.0), WHOLE),
        "shared": finding(throttle, (0.02, 1.0), Range(0.02, -1.0)),
        "found two": found(lines),
        "found three": found(three),
        "found three, one resting": found(three, throttle=7.0, health=HEALTH_LINE),
        "found two, too slow": found(lines, health=TOO_SLOW),
        "nothing plugged": NothingPlugged(),
        "nothing plugged that opens": NothingPlugged(DENIED),
        "no pedals that open": NoPedals(saved=True, plugged=1, unopened=BOTH),
        "feet off, some unopened": feet_off_unopened,
        "find brake, one unopened": one_unopened,
        "nothing moves, some unopened": unopened,
        "find clutch, one unopened": clutch_unopened,
        "which pedals": WhichPedals(lines),
        "which of three": WhichPedals(three),
        "which of three and a shift button": WhichPedals(three, SHIFTER.words),
        "which of two, a shift button to add": WhichPedals(lines, ""),
        "shift button": ShiftMenu(lambda: None),
        "shift button found": shift_found(),
        "shift button, bound before": ShiftMenu(lambda: None, SHIFTER),
        "shift button, another found": shift_found(replace(SHIFTER, button=3)),
        "pedals came": SavedPedalsBack(),
        **renewal_screens(),
        "menu": asked(),
        "which rig": WhichRig(RIGS),
        "rigs": RigList(RIGS, 2),
        "many rigs": RigList(MANY_RIGS, 1),
        "rig": OneRig(RIGS[1], used=True, plugged=True),
        "rig with a shift button": OneRig(SHIFTING, used=False, plugged=True),
        "rig to choose": OneRig(RIGS[0], used=False, plugged=True),
        "remove rig": RemoveRig(RIGS[0]),
        "rig name": RigName(RIGS, why_not_named("Home", RIGS)),
        "keep as": KeepAs(RIGS[0]),
        "menu when all are found": PedalMenu(search({AXIS: -1.0}, WHOLE)),
        "menu when all are tried": PedalMenu(search({AXIS: -1.0}, WHOLE), tried=True),
        "soft press": SoftPress(search({AXIS: -1.0}, WHOLE), brake, 0.32),
        "menu with a doubt": asked(WHOLE, SECOND_AXIS),
    }
