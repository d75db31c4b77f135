"""Looking for the pedals one after another: feet off, find it, and what to do when that fails."""

from __future__ import annotations

from collections.abc import Sequence

from drills.trace import Pedal
from engine.kit.flow import show
from engine.pedals.finder import Found
from engine.pedals.rig import Rig
from engine.setup.choice_screens import PedalMenu, SetUpChoice
from engine.setup.finding_screens import FeetOff, FindPedal, Rested, Retry
from engine.setup.search_screen import Gone, Search
from engine.setup.words import heading, refused_said
from engine.stage.scene import Flow
from engine.stage.stage import Stage

FINISHED = "The pedals are set up"
"""Heading of the last look with the feet off."""


def search_pedals(
    wanted: Sequence[Pedal], search: Search, rig: Rig, stage: Stage, note: str
) -> Flow[Gone | SetUpChoice | None]:
    """Find the wanted pedals; why not, if not. What is found goes into the search.

    `note` says why this begins again.
    """
    for pedal in wanted:
        ended = yield from _search_one(pedal, search, rig, stage, note)
        if ended is not None:
            return ended
        note = ""
    return (yield from _check(search, rig, stage))


def _search_one(
    pedal: Pedal, search: Search, rig: Rig, stage: Stage, note: str
) -> Flow[Gone | SetUpChoice | None]:
    """Find one pedal, as often as it takes."""
    search.presses.calibrate({one.axis: one.range for one in search.known.values()})
    while True:
        match (yield from _look(pedal, search, rig, stage, note)):
            case Found() as found:
                search.known[pedal] = found
                return None
            case Gone.SKIPPED:
                return None
            case Retry(again):
                note = again
            case Gone.MENU:
                asked = yield from show(PedalMenu(search, pedal), rig, stage)
                note = ""
                if asked is SetUpChoice.REFUSE and search.doubted is not None:
                    search.refused.add(search.doubted)
                    note = refused_said(search.called(search.doubted))
                elif asked is not SetUpChoice.GO_ON:
                    return asked
            case Gone() as gone:
                return gone


def _look(
    pedal: Pedal, search: Search, rig: Rig, stage: Stage, note: str
) -> Flow[Found | Gone | Retry]:
    """Look for one pedal once, with the feet off before."""
    rested = yield from show(FeetOff(search, heading(pedal), note), rig, stage)
    if isinstance(rested, Gone):
        return rested
    return (yield from show(FindPedal(pedal, search, note), rig, stage))


def _check(search: Search, rig: Rig, stage: Stage) -> Flow[Gone | SetUpChoice | None]:
    """See with the feet off whether the pedals agree."""
    search.presses.calibrate({one.axis: one.range for one in search.known.values()})
    while True:
        match (yield from show(FeetOff(search, FINISHED), rig, stage)):
            case Rested():
                return None
            case Gone.MENU:
                asked = yield from show(PedalMenu(search), rig, stage)
                if asked is not SetUpChoice.GO_ON:
                    return asked
            case gone:
                return gone
