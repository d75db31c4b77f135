"""`search_pedals`: finds the wanted pedals one after another, with a menu where that fails."""

from __future__ import annotations

from collections.abc import Sequence

from drills.trace import Pedal
from engine.kit.flow import show
from engine.pedals.ends import SOFT, share_used
from engine.pedals.finder import Found
from engine.pedals.rig import Rig
from engine.setup.any_pedal_menu import SetUpChoice
from engine.setup.choice_screens import PedalMenu, SoftPress
from engine.setup.finding_screens import FeetOff, FindPedal, Rested, Retry
from engine.setup.search import Search, SearchEnd
from engine.setup.words import heading, refused_words
from engine.stage.scene import Flow
from engine.stage.stage import Stage

FINISHED = "last check"
"""Heading of the last check, with the feet off, after all pedals are found."""


def search_pedals(
    wanted: Sequence[Pedal], search: Search, rig: Rig, stage: Stage, note: str
) -> Flow[SearchEnd | SetUpChoice | None]:
    """Find the wanted pedals and store them in the search; return None, or why it ended early.

    `note` is the reason why the search begins again, if it does.
    """
    for pedal in wanted:
        ended = yield from _search_one(pedal, search, rig, stage, note)
        if ended is not None:
            return ended
        note = ""
    return (yield from _check(search, rig, stage))


def _search_one(
    pedal: Pedal, search: Search, rig: Rig, stage: Stage, note: str
) -> Flow[SearchEnd | SetUpChoice | None]:
    """Search for one pedal until it is found or left out, or the player gives up."""
    search.presses.calibrate(search.taken)
    was_asked = False
    while True:
        match (yield from _look(pedal, search, rig, stage, note)):
            case Found() as found if was_asked or share_used(found.range) >= SOFT:
                search.found[pedal] = found
                return None
            case Found() as found:
                was_asked, note = True, ""
                if (yield from _was_full(pedal, found, search, rig, stage)):
                    return None
            case SearchEnd.SKIPPED:
                return None
            case Retry(reason):
                note = reason
            case SearchEnd.MENU:
                asked = yield from show(PedalMenu(search, pedal), rig, stage)
                note = ""
                if asked is SetUpChoice.REFUSE and search.doubted is not None:
                    search.refused.add(search.doubted)
                    note = refused_words(search.called(search.doubted))
                elif asked is not SetUpChoice.GO_ON:
                    return asked
            case SearchEnd() as end:
                return end


def _was_full(pedal: Pedal, found: Found, search: Search, rig: Rig, stage: Stage) -> Flow[bool]:
    """Ask whether two soft presses were full; if so, return True with the pedal in the search."""
    search.found[pedal] = found
    search.presses.calibrate(search.taken)
    screen = SoftPress(search, pedal, share_used(found.range))
    if (yield from show(screen, rig, stage)) is SetUpChoice.KEEP:
        return True
    del search.found[pedal]
    search.presses.calibrate(search.taken)
    return False


def _look(
    pedal: Pedal, search: Search, rig: Rig, stage: Stage, note: str
) -> Flow[Found | SearchEnd | Retry]:
    """Search for one pedal once, after waiting until the feet are off."""
    rested = yield from show(FeetOff(search, heading(pedal), note), rig, stage)
    if isinstance(rested, SearchEnd):
        return rested
    return (yield from show(FindPedal(pedal, search, note), rig, stage))


def _check(search: Search, rig: Rig, stage: Stage) -> Flow[SearchEnd | SetUpChoice | None]:
    """Check that every found pedal reads as released while the feet are off."""
    search.presses.calibrate(search.taken)
    while True:
        match (yield from show(FeetOff(search, FINISHED), rig, stage)):
            case Rested():
                return None
            case SearchEnd.MENU:
                asked = yield from show(PedalMenu(search), rig, stage)
                if asked is not SetUpChoice.GO_ON:
                    return asked
            case end:
                return end
