"""Menus of the rigs: which one is played with, the list of them, one of them, its name."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from drills.capitals import capitalised
from drills.trace import Pedal
from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.kit.statement import statement
from engine.setup.rigs import SUGGESTED, NamedRig, why_not_named

DEVICE_LINE = 1.3 * theme.BODY
"""Distance from the line of one pedal of a rig to the next, in canvas units."""
ONE_RIG_LIST = 430
"""Top of the choices below the pedals of one rig, in canvas units."""


class RigsChoice(Enum):
    """What can be chosen in the menus of the rigs beside a rig."""

    ADD = "add"
    REPLACE = "replace"
    PLAY = "play"
    NAME = "name"
    NOTE = "note"
    REMOVE = "remove"
    AGAIN = "again"
    BACK = "back"


class WhichRig(Menu[NamedRig | RigsChoice]):
    """Question at the start which rig is played with, where several fit what is plugged in."""

    name = "which rig"

    def __init__(self, rigs: Sequence[NamedRig]) -> None:
        """`rigs` are those that fit, the one played with last first."""
        choices: list[Choice[NamedRig | RigsChoice]] = [
            Choice(saved.label, saved, saved.about) for saved in rigs
        ]
        super().__init__(choices)

    def on_devices(self, *, cut: bool) -> None:
        """End when devices come or go: other rigs may fit then."""
        self.outcome = RigsChoice.AGAIN

    def picture(self, canvas: Canvas) -> None:
        """Draw the question, and why it is asked."""
        text = "What is plugged in fits more than one of yours."
        statement(canvas, "Which rig is this?", text, bottom=self.choices_top)


class RigList(Menu[NamedRig | RigsChoice]):
    """List of the rigs, to look at one or add one."""

    name = "rigs"
    list_top = theme.LIST

    def __init__(self, rigs: Sequence[NamedRig], used: int | None) -> None:
        """`used` is the number of the rig that is played with now; None for none of them."""
        choices: list[Choice[NamedRig | RigsChoice]] = [
            Choice(saved.label, saved, _note(saved, used)) for saved in rigs
        ]
        choices.append(Choice("Add a rig", RigsChoice.ADD, "sets its pedals up"))
        choices.append(Choice("Back", RigsChoice.BACK))
        super().__init__(choices, back=RigsChoice.BACK)

    def on_devices(self, *, cut: bool) -> None:
        """End when devices come or go: other rigs may be plugged in then."""
        self.outcome = RigsChoice.AGAIN

    def picture(self, canvas: Canvas) -> None:
        """Draw what a rig is."""
        y = title(canvas, "Rigs")
        if y < self.choices_top - theme.BODY:
            text = "Each keeps its own calibration. The game takes the one plugged in."
            canvas.text(text, (theme.MARGIN, y), theme.BODY, theme.QUIET)


def _note(saved: NamedRig, used: int | None) -> str:
    return f"in use; {saved.about}" if saved.number == used else saved.about


class OneRig(Menu[RigsChoice]):
    """Menu of one rig: play with it, name it, note something on it, remove it."""

    name = "rig"
    list_top: float | None = ONE_RIG_LIST

    def __init__(self, saved: NamedRig, *, used: bool, plugged: bool) -> None:
        """`used`: it is played with now; `plugged`: its devices are plugged in."""
        choices = [Choice("Play with it", RigsChoice.PLAY)] if plugged and not used else []
        choices += [
            Choice("Name", RigsChoice.NAME, saved.label),
            Choice("Spacing and shoes", RigsChoice.NOTE, saved.note or "no note"),
        ]
        if not used:
            choices.append(Choice("Remove it", RigsChoice.REMOVE, "its repetitions stay"))
        choices.append(Choice("Back", RigsChoice.BACK))
        super().__init__(choices, back=RigsChoice.BACK)
        if saved.binding.shift is not None:
            self.list_top = ONE_RIG_LIST + DEVICE_LINE
        self._saved = saved
        self._used = used

    def picture(self, canvas: Canvas) -> None:
        """Draw the name of the rig, and the devices of its pedals and its shift button."""
        y = title(canvas, self._saved.label)
        width = theme.WIDTH - 2 * theme.MARGIN
        binding = self._saved.binding
        lines = [
            f"{capitalised(pedal.value)}: {bound.device.called(bound.axis)}"
            for pedal, bound in zip(Pedal, binding.pedals, strict=False)
        ]
        lines += [] if binding.shift is None else [f"Shift: {binding.shift.words}"]
        for line in lines:
            line = canvas.fitted(line, width, theme.BODY)
            canvas.text(line, (theme.MARGIN, y), theme.BODY, theme.QUIET)
            y += DEVICE_LINE


class RemoveRig(Menu[bool]):
    """Question whether a rig is to be removed; its outcome is whether it is."""

    name = "remove rig"
    in_a_bar = True

    def __init__(self, saved: NamedRig) -> None:
        choices = [Choice("Keep it", False), Choice("Remove it", True)]
        super().__init__(choices, back=False)
        self._saved = saved

    def picture(self, canvas: Canvas) -> None:
        """Draw the question, and what is lost."""
        text = "Its repetitions stay, its calibration is lost."
        note = "To play with it again, set up its pedals."
        name = f" {self._saved.name}" if self._saved.name else ""
        statement(canvas, f"Remove the rig{name}?", text, note=note)


@dataclass(frozen=True)
class Typed:
    """Outcome of a menu of names: a name is to be typed."""


class RigName(Menu[str | Typed | RigsChoice]):
    """Menu to name a rig: a suggested name, or one to type. Its outcome is the name."""

    name = "rig name"

    def __init__(self, others: Sequence[NamedRig], refusal: str = "") -> None:
        """`others` are the rigs whose names are taken, `refusal` what was wrong with a name."""
        choices: list[Choice[str | Typed | RigsChoice]] = [
            Choice(name, name) for name in SUGGESTED if not why_not_named(name, others)
        ]
        choices += [Choice("Another name", Typed(), "typed"), Choice("Back", RigsChoice.BACK)]
        super().__init__(choices, back=RigsChoice.BACK)
        self._refusal = refusal

    def picture(self, canvas: Canvas) -> None:
        """Draw the question, and what was wrong with the name before."""
        statement(canvas, "What is this rig called?", self._refusal, bottom=self.choices_top)


class KeepAs(Menu[RigsChoice]):
    """Question whether pedals on other devices are a new rig, or replace those of the old one."""

    name = "keep as"

    def __init__(self, before: NamedRig) -> None:
        """`before` is the rig that was played with last."""
        choices = [
            Choice("A rig of its own", RigsChoice.ADD, "both stay"),
            Choice(f"In place of: {before.label}", RigsChoice.REPLACE, before.about),
        ]
        super().__init__(choices, back=RigsChoice.ADD)

    def picture(self, canvas: Canvas) -> None:
        """Draw the question, and that a rig of its own begins its own courses."""
        text = "These pedals are other devices than before."
        statement(canvas, "A new rig?", text, bottom=self.choices_top)
