"""`find_pedals` and `set_up`: binds the saved pedals, or sets up all of them or one."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import datetime
from functools import partial

from drills.trace import Pedal
from engine.kit.flow import show
from engine.pedals.bound import Binding, BoundAxis
from engine.pedals.finder import Found
from engine.pedals.identity import Axis, Connection, match
from engine.pedals.mouse import MOUSE_TRAVEL, MousePedals
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.setup.any_pedal_menu import SetUpChoice
from engine.setup.choice_screens import (
    PedalMenu,
    PedalsFound,
    SavedPedalsBack,
    WhichPedals,
)
from engine.setup.health_saved import pedals_of
from engine.setup.health_words import setup_line
from engine.setup.no_pedals import NoPedals, NoPedalsChoice, NothingPlugged
from engine.setup.rig_flow import ask_name, choose_rig, keep_pedals, look_at_rigs
from engine.setup.rig_screens import RigsChoice
from engine.setup.rigs import NamedRig, are_models_plugged, fitting
from engine.setup.saved import bind_rig
from engine.setup.saved_rigs import saved_binding, saved_rigs, use_rig
from engine.setup.search import Search, SearchEnd
from engine.setup.search_flow import search_pedals
from engine.setup.shift_flow import ask_shift, change_shift, may_have_shift
from engine.setup.unopened import unopened_note
from engine.setup.words import RESTART_NOTES
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History


def find_pedals(
    rig: Rig, stage: Stage, history: History, now: Callable[[], datetime]
) -> Flow[NoPedalsChoice | None]:
    """Bind pedals or the mouse to the rig; return None once done, or what the player chose instead.

    Raises StoreError.
    """
    while True:
        rigs = saved_rigs(history)
        there = fitting(rigs, rig)
        if any(bind_rig(rig, history, saved) for saved in there):
            yield from choose_rig(rig, stage, history)
            return None
        rig.rescan()
        plugged = 0 if rig.devices is None else len(rig.devices.plugged)
        is_new = not rigs or any(are_models_plugged(saved, rig) for saved in rigs)
        if plugged and is_new and (yield from set_up(rig, stage, history, now)):
            return None
        note = unopened_note(rig)
        screen = NoPedals(saved=bool(rigs), plugged=plugged, unopened=note)
        match (yield from show(screen, rig, stage)):
            case NoPedalsChoice.MOUSE:
                mouse = MousePedals(stage.lights.pointer, rig.clock)
                rig.play_with(CalibratedPedals(mouse, MOUSE_TRAVEL))
                return None
            case NoPedalsChoice.BIND:
                if (yield from set_up(rig, stage, history, now)):
                    return None
            case NoPedalsChoice.PLUGGED:
                continue
            case other:
                return other


def set_up(
    rig: Rig, stage: Stage, history: History, now: Callable[[], datetime], name: str = ""
) -> Flow[bool]:
    """Set up all pedals or one of them; return whether pedals are bound in the end.

    `now` gives the local time of the change that this may be; `name` is that of a rig to be added,
    of which all pedals are set up. If the player stops, the rig plays with what it had before.
    Raises StoreError.
    """
    before = rig.pedals
    bound = {} if name else rig.bound
    wanted: Pedal | SetUpChoice = SetUpChoice.ALL
    if bound:
        shift = _shift_line(saved_binding(history), rig)
        wanted = yield from show(WhichPedals(_lines(bound, rig), shift), rig, stage)
        if wanted is SetUpChoice.STOP:
            return False
        if wanted is SetUpChoice.SHIFT:
            yield from change_shift(rig, stage, history, now)
            return True
    if (yield from _SettingUp(rig, stage, history, now, name).run(wanted, bound)):
        return True
    rig.play_with(before)
    return False


def rigs_of(rig: Rig, stage: Stage, history: History, now: Callable[[], datetime]) -> Flow[None]:
    """Show the rigs, and set up the pedals of those that the player adds. Raises StoreError."""
    while (yield from look_at_rigs(rig, stage, history)) is RigsChoice.ADD:
        name = yield from ask_name(saved_rigs(history), rig, stage)
        if name is not None:
            yield from set_up(rig, stage, history, now, name)


class _SettingUp:
    """One run through the setup of pedals."""

    def __init__(
        self, rig: Rig, stage: Stage, history: History, now: Callable[[], datetime], name: str
    ) -> None:
        """`name` is that of a rig to be added; empty to set up the one that there is."""
        self._rig = rig
        self._stage = stage
        self._history = history
        self._now = now
        self._name = name
        rigs = [] if name else saved_rigs(history)
        self._awaited = [saved for saved in rigs if not _is_plugged(saved.binding, rig)]
        self._refused: set[Axis] = set()
        self._shift = None if name else rig.shift

    def run(self, wanted: Pedal | SetUpChoice, bound: Mapping[Pedal, Found]) -> Flow[bool]:
        """Find the wanted pedals beside those bound; return whether pedals are bound in the end."""
        rig, stage, note = self._rig, self._stage, ""
        while True:
            rig.play_with(None)
            saved = self._saved_came()
            if saved is not None and (yield from self._take(saved)):
                return True
            if not rig.values():
                if not (yield from show(NothingPlugged(unopened_note(rig)), rig, stage)):
                    return False
                continue
            search, pedals = self._search(wanted, bound)
            missed = yield from search_pedals(pedals, search, rig, stage, note)
            self._refused, note = search.refused, ""
            ended = missed or (yield from self._confirm(search))
            if isinstance(ended, Pedal):
                wanted, bound = ended, rig.bound
                continue
            match ended:
                case SetUpChoice.KEEP:
                    return True
                case SetUpChoice.STOP | SearchEnd.BACK:
                    return False
                case SetUpChoice.ALL:
                    self._refused = set()
                case SearchEnd() as gone:
                    note = RESTART_NOTES.get(gone, "")
            if ended is not SearchEnd.CAME:
                wanted = SetUpChoice.ALL

    def _search(
        self, wanted: Pedal | SetUpChoice, bound: Mapping[Pedal, Found]
    ) -> tuple[Search, list[Pedal]]:
        """New search with the pedals that are not set up again, and the list of those to find."""
        rig = self._rig
        search = Search(rig.values, self._axis_name, self._has_come, refused=self._refused)
        search.unopened = partial(unopened_note, rig)
        there = search.values()
        if not isinstance(wanted, Pedal) or any(
            found.axis not in there for found in bound.values()
        ):
            return search, list(Pedal)
        search.found = {pedal: found for pedal, found in bound.items() if pedal is not wanted}
        search.fixed = frozenset(search.found)
        return search, [wanted]

    def _confirm(self, search: Search) -> Flow[Pedal | SetUpChoice | SearchEnd]:
        """Show the pedals that were found, and save them if the player agrees."""
        rig, stage = self._rig, self._stage
        found = _binding(search.found, rig)
        binding = None if found is None else replace(found, shift=self._shift)
        if binding is None or rig.bind(binding) is not None:
            return SearchEnd.LOST
        lines = _lines(search.found, rig)
        axes = [search.found[pedal].axis for pedal in Pedal if pedal in search.found]
        seen = search.glimpse.healths(list(zip(pedals_of(binding), axes, strict=True)))
        health = setup_line(seen)
        while True:
            asked = yield from show(PedalsFound(lines, health), rig, stage)
            if asked is SetUpChoice.STOP:
                asked = yield from show(PedalMenu(search, tried=True), rig, stage)
            if asked is SetUpChoice.KEEP:
                if not search.fixed and may_have_shift(binding, rig):
                    binding = yield from ask_shift(binding, rig, stage)
                    if rig.bind(binding) is not None:
                        return SearchEnd.LOST
                at = self._now()
                yield from keep_pedals(binding, rig, stage, self._history, at, self._name)
            if asked is not SetUpChoice.GO_ON:
                return asked

    def _take(self, saved: NamedRig) -> Flow[bool]:
        """Offer saved pedals once, in place of the search; return whether they are taken."""
        self._awaited.remove(saved)
        if self._rig.bind(saved.binding, saved.number) is not None:
            return False
        asked = yield from show(SavedPedalsBack(), self._rig, self._stage)
        if asked is SetUpChoice.KEEP:
            use_rig(self._history, saved.number)
            return True
        self._rig.play_with(None)
        return False

    def _saved_came(self) -> NamedRig | None:
        """First rig that is plugged in now, though not when the setup began; None: there is none.

        Of several it is the one that was played with last.
        """
        there = (saved for saved in self._awaited if _is_plugged(saved.binding, self._rig))
        return next(there, None)

    def _has_come(self) -> bool:
        """Whether a rig is plugged in now that was not when the setup began."""
        return self._saved_came() is not None

    def _axis_name(self, axis: Axis) -> str:
        devices = self._rig.devices
        identity = None if devices is None else devices.identity(axis.device)
        return f"axis {axis.axis + 1}" if identity is None else identity.called(axis.axis)


def _is_plugged(binding: Binding, rig: Rig) -> bool:
    devices = () if rig.devices is None else rig.devices.plugged
    found = match([pedal.device for pedal in binding.pedals], devices, None)
    return isinstance(found, Connection)


def _binding(found: Mapping[Pedal, Found], rig: Rig) -> Binding | None:
    """Binding of the found pedals to their devices; None if a device is not plugged in any more."""
    axes = {}
    for pedal, place in found.items():
        identity = None if rig.devices is None else rig.devices.identity(place.axis.device)
        if identity is None:
            return None
        axes[pedal] = BoundAxis(identity, place.axis.axis, place.range)
    return Binding(axes[Pedal.BRAKE], axes[Pedal.THROTTLE], axes.get(Pedal.CLUTCH))


def _shift_line(binding: Binding | None, rig: Rig) -> str | None:
    """Shift button in words for a menu, empty for none; None where no device may have one."""
    if binding is None or not may_have_shift(binding, rig):
        return None
    return "" if binding.shift is None else binding.shift.words


def _lines(found: Mapping[Pedal, Found], rig: Rig) -> dict[Pedal, str]:
    """Device and axis of each pedal in words, such as for a menu."""
    binding = _binding(found, rig)
    bound = () if binding is None else binding.pedals
    return {pedal: axis.device.called(axis.axis) for pedal, axis in zip(Pedal, bound, strict=False)}
