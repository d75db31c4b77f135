"""Setting up the pedals, all of them or one, and reading back what was saved."""

from __future__ import annotations

from collections.abc import Mapping

from drills.trace import Pedal
from engine.kit.flow import show
from engine.pedals.bound import Binding, BoundAxis
from engine.pedals.finder import Found
from engine.pedals.identity import Axis, Connection, Missing, match
from engine.pedals.mouse import MOUSE_TRAVEL, MousePedals
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.setup.choice_screens import PedalMenu, PedalsFound, SavedCame, SetUpChoice, WhichPedals
from engine.setup.no_pedals import Instead, NoPedals, NothingPlugged
from engine.setup.saved import BINDING, saved_binding
from engine.setup.search_flow import search_pedals
from engine.setup.search_screen import Gone, Search
from engine.setup.words import BEGUN_ANEW
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History


def find_pedals(rig: Rig, stage: Stage, history: History) -> Flow[Instead | None]:
    """Find something to play with; None where the rig has it, otherwise what is wanted instead."""
    while True:
        binding = saved_binding(history)
        trouble: Missing | None = Missing.AMBIGUOUS
        if binding is not None:
            trouble = rig.bind(binding)
            if trouble is None:
                return None
        plugged = 0 if rig.devices is None else len(rig.devices.plugged)
        if plugged and trouble is Missing.AMBIGUOUS and (yield from set_up(rig, stage, history)):
            return None
        screen = NoPedals(saved=binding is not None, plugged=plugged)
        match (yield from show(screen, rig, stage)):
            case Instead.MOUSE:
                mouse = MousePedals(stage.lights.pointer, rig.clock)
                rig.play_with(CalibratedPedals(mouse, MOUSE_TRAVEL))
                return None
            case Instead.BIND:
                if (yield from set_up(rig, stage, history)):
                    return None
            case Instead.PLUGGED:
                continue
            case other:
                return other


def set_up(rig: Rig, stage: Stage, history: History) -> Flow[bool]:
    """Bind and calibrate the pedals, all or one of them; whether that was gone through with."""
    before = rig.pedals
    known = rig.bound
    wanted: Pedal | SetUpChoice = SetUpChoice.ALL
    if known:
        wanted = yield from show(WhichPedals(_lines(known, rig)), rig, stage)
        if wanted is SetUpChoice.STOP:
            return False
    if (yield from _SettingUp(rig, stage, history).run(wanted, known)):
        return True
    rig.play_with(before)
    return False


class _SettingUp:
    """One time of setting up."""

    def __init__(self, rig: Rig, stage: Stage, history: History) -> None:
        self._rig = rig
        self._stage = stage
        self._history = history
        saved = saved_binding(history)
        self._awaited = None if saved is None or _is_plugged(saved, rig) else saved
        self._refused: set[Axis] = set()

    def run(self, wanted: Pedal | SetUpChoice, known: Mapping[Pedal, Found]) -> Flow[bool]:
        """Find the wanted pedals beside those that are known; whether any are bound in the end."""
        rig, stage, note = self._rig, self._stage, ""
        while True:
            rig.play_with(None)
            if self._came() and (yield from self._take_saved()):
                return True
            if not rig.values():
                if not (yield from show(NothingPlugged(), rig, stage)):
                    return False
                continue
            search, pedals = self._search(wanted, known)
            missed = yield from search_pedals(pedals, search, rig, stage, note)
            self._refused, note = search.refused, ""
            ended = missed or (yield from self._keep(search))
            if isinstance(ended, Pedal):
                wanted, known = ended, rig.bound
                continue
            match ended:
                case SetUpChoice.KEEP:
                    return True
                case SetUpChoice.STOP | Gone.BACK:
                    return False
                case SetUpChoice.ALL:
                    self._refused = set()
                case Gone() as gone:
                    note = BEGUN_ANEW.get(gone, "")
            if ended is not Gone.CAME:
                wanted = SetUpChoice.ALL

    def _search(
        self, wanted: Pedal | SetUpChoice, known: Mapping[Pedal, Found]
    ) -> tuple[Search, list[Pedal]]:
        """What is known, and which pedals to find."""
        search = Search(self._rig.values, self._called, self._came, refused=self._refused)
        there = search.values()
        if not isinstance(wanted, Pedal) or any(one.axis not in there for one in known.values()):
            return search, list(Pedal)
        search.known = {pedal: one for pedal, one in known.items() if pedal is not wanted}
        search.kept = frozenset(search.known)
        return search, [wanted]

    def _keep(self, search: Search) -> Flow[Pedal | SetUpChoice | Gone]:
        """Show what was found, and save it if the player likes it."""
        rig, stage = self._rig, self._stage
        binding = _binding(search.known, rig)
        if binding is None or rig.bind(binding) is not None:
            return Gone.LOST
        lines = _lines(search.known, rig)
        while True:
            asked = yield from show(PedalsFound(lines), rig, stage)
            if asked is SetUpChoice.STOP:
                asked = yield from show(PedalMenu(search), rig, stage)
            if asked is SetUpChoice.KEEP:
                self._history.keep_setting(BINDING, binding.as_data())
            if asked is not SetUpChoice.GO_ON:
                return asked

    def _take_saved(self) -> Flow[bool]:
        """Offer the pedals that were set up before, once; whether they are played with."""
        saved, self._awaited = self._awaited, None
        if saved is None or self._rig.bind(saved) is not None:
            return False
        asked = yield from show(SavedCame(), self._rig, self._stage)
        if asked is SetUpChoice.KEEP:
            return True
        self._rig.play_with(None)
        return False

    def _came(self) -> bool:
        """Whether the pedals that were set up before are there by now."""
        return self._awaited is not None and _is_plugged(self._awaited, self._rig)

    def _called(self, axis: Axis) -> str:
        devices = self._rig.devices
        identity = None if devices is None else devices.identity(axis.device)
        return f"axis {axis.axis + 1}" if identity is None else identity.called(axis.axis)


def _is_plugged(binding: Binding, rig: Rig) -> bool:
    devices = () if rig.devices is None else rig.devices.plugged
    found = match([pedal.device for pedal in binding.pedals], devices, None)
    return isinstance(found, Connection)


def _binding(found: Mapping[Pedal, Found], rig: Rig) -> Binding | None:
    """The pedals with the devices they are on; None where one of those is not there any more."""
    axes = {}
    for pedal, one in found.items():
        identity = None if rig.devices is None else rig.devices.identity(one.axis.device)
        if identity is None:
            return None
        axes[pedal] = BoundAxis(identity, one.axis.axis, one.range)
    return Binding(axes[Pedal.BRAKE], axes[Pedal.THROTTLE], axes.get(Pedal.CLUTCH))


def _lines(found: Mapping[Pedal, Found], rig: Rig) -> dict[Pedal, str]:
    """Where each pedal is, for the player."""
    binding = _binding(found, rig)
    bound = () if binding is None else binding.pedals
    return {pedal: one.device.called(one.axis) for pedal, one in zip(Pedal, bound, strict=False)}
