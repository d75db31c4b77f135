"""Flows of the rigs: choosing at the start, the list under More, naming, adding, removing."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from engine.kit.flow import show
from engine.kit.text_entry import TextEntry
from engine.pedals.bound import Binding
from engine.pedals.rig import Rig
from engine.setup.rig_screens import (
    KeepAs,
    OneRig,
    RemoveRig,
    RigList,
    RigName,
    RigsChoice,
    Typed,
    WhichRig,
)
from engine.setup.rigs import NAME_LONGEST, NOTE_LONGEST, NamedRig, fitting, why_not_named
from engine.setup.saved import bind_rig
from engine.setup.saved_rigs import (
    add_rig,
    keep_binding,
    name_rig,
    note_rig,
    remove_rig,
    saved_rigs,
    use_rig,
)
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History


def choose_rig(rig: Rig, stage: Stage, history: History) -> Flow[None]:
    """Ask which rig is played with, if several fit what is plugged in. Raises StoreError."""
    while len(there := fitting(saved_rigs(history), rig)) > 1:
        chosen = yield from show(WhichRig(there), rig, stage)
        if isinstance(chosen, NamedRig):
            bind_rig(rig, history, chosen)
            return


def look_at_rigs(rig: Rig, stage: Stage, history: History) -> Flow[RigsChoice]:
    """Show the rigs until the player goes back, or adds one: then its pedals are to be set up.

    Raises StoreError.
    """
    while True:
        rigs = saved_rigs(history)
        chosen = yield from show(RigList(rigs, rig.number), rig, stage)
        if isinstance(chosen, NamedRig):
            yield from _look_at(chosen, rigs, rig, stage, history)
        elif chosen is not RigsChoice.AGAIN:
            return chosen


def _look_at(
    saved: NamedRig, rigs: Sequence[NamedRig], rig: Rig, stage: Stage, history: History
) -> Flow[None]:
    used = saved.number == rig.number
    screen = OneRig(saved, used=used, plugged=saved in fitting(rigs, rig))
    match (yield from show(screen, rig, stage)):
        case RigsChoice.PLAY:
            bind_rig(rig, history, saved)
        case RigsChoice.NAME:
            others = [other for other in rigs if other.number != saved.number]
            name = yield from ask_name(others, rig, stage)
            if name is not None:
                name_rig(history, saved.number, name)
        case RigsChoice.NOTE:
            entry = TextEntry("Spacing and shoes", saved.note, NOTE_LONGEST)
            if (yield from show(entry, rig, stage)):
                note_rig(history, saved.number, entry.text)
        case RigsChoice.REMOVE:
            if (yield from show(RemoveRig(saved), rig, stage)):
                remove_rig(history, saved.number)


def ask_name(others: Sequence[NamedRig], rig: Rig, stage: Stage) -> Flow[str | None]:
    """Ask for the name of a rig beside others; returns None if the player goes back."""
    refusal = ""
    while True:
        name = yield from show(RigName(others, refusal), rig, stage)
        if isinstance(name, Typed):
            entry = TextEntry("Name of the rig", "", NAME_LONGEST)
            if not (yield from show(entry, rig, stage)):
                continue
            name = entry.text
        if not isinstance(name, str):
            return None
        refusal = why_not_named(name, others)
        if not refusal:
            return name.strip()


def keep_pedals(
    binding: Binding, rig: Rig, stage: Stage, history: History, at: datetime, name: str
) -> Flow[None]:
    """Store pedals that were set up `at` a time and are in use, with the rig they belong to.

    `name` is that of a rig to be added; empty: they belong to the rig on the same devices, of
    several to the one played with last, or are asked about where they are other devices. Raises
    StoreError.
    """
    rigs = saved_rigs(history)
    alike = [saved for saved in rigs if saved.binding.guids == binding.guids]
    if alike and not name:
        use_rig(history, alike[0].number)
    while rigs and not alike and not name:
        if (yield from show(KeepAs(rigs[0]), rig, stage)) is RigsChoice.REPLACE:
            break
        name = (yield from ask_name(rigs, rig, stage)) or ""
    number = add_rig(history, binding, name) if name else keep_binding(history, binding, at)
    rig.belongs_to(number)
