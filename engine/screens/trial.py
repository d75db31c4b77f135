"""The door to a trial: what it is, how far the one under way has come, and giving it up."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from engine.practice.setups import in_words
from engine.practice.trial import BLOCK, Arm, SetUp
from engine.screens import theme
from engine.screens.base import Choice, Menu, title
from engine.screens.canvas import Canvas

HEADING = "Try a foot position"
"""What the door is called."""
ABOUT = (
    "Two set-ups of the foot, A and B, on one level, five repetitions at a time.",
    "Which of them comes first in each pair is drawn by lot: so practice, warm-up and good days "
    "favour neither.",
    "How clean or quiet you were is not shown before the end. It may take several days.",
)
"""What a trial is."""
UNTOLD = "Nothing of the score is shown before the end."
"""What is said while one is under way."""


class Door(Enum):
    """What to do about trials."""

    BEGIN = "begin"
    ON = "on"
    GIVE_UP = "give up"
    PAST = "past"
    BACK = "back"


@dataclass(frozen=True)
class Far:
    """How far a trial has come: nothing of its score."""

    pairs: int
    """count of pairs done."""
    of: int
    """count of pairs in all."""
    block: int
    """From 1, the block that comes now, or is under way."""
    done: int
    """count of its repetitions that are done."""

    @property
    def blocks(self) -> int:
        """count of blocks in all."""
        return 2 * self.of

    @property
    def words(self) -> str:
        """Such as "3 of 8 pairs are done"."""
        are = "is" if self.pairs == 1 else "are"
        return f"{self.pairs} of {self.of} pairs {are} done"


class AboutTrial(Menu[Door]):
    """No trial is under way: ends with whether to begin one."""

    name = "about trial"

    def __init__(self, past: int) -> None:
        """`past`: count of trials that there were."""
        super().__init__(
            [Choice("Begin a trial", Door.BEGIN), *_past(past), Choice("Back", Door.BACK)],
            back=Door.BACK,
        )

    def picture(self, canvas: Canvas) -> None:
        """What a trial is, as a list."""
        listed(canvas, title(canvas, HEADING) + 20, ABOUT)


class UnderWay(Menu[Door]):
    """A trial is under way: ends with what to do about it."""

    name = "trial under way"

    def __init__(
        self, arms: tuple[SetUp, SetUp], level: str, far: Far, past: int, trouble: str = ""
    ) -> None:
        """`level` is the title of its level, `past` how many trials there were before.

        `trouble` says why it cannot go on; empty where it can.
        """
        note = f"block {far.block} of {far.blocks}, {far.done} of {BLOCK} are done"
        on = [] if trouble else [Choice("Go on with it", Door.ON, note)]
        super().__init__(
            [
                *on,
                Choice("Give it up", Door.GIVE_UP),
                *_past(past),
                Choice("Back", Door.BACK),
            ],
            back=Door.BACK,
        )
        self._arms = arms
        self._level = level
        self._far = far
        self._trouble = trouble

    def details(self) -> Mapping[str, object]:
        """The labels of the choices, and how far it is."""
        return {**super().details(), "far": self._far.words, "trouble": self._trouble}

    def picture(self, canvas: Canvas) -> None:
        """What it is, and how far: nothing of the score."""
        y = title(canvas, "A trial is under way") + 10
        width = theme.WIDTH - 2 * theme.MARGIN
        for arm, one in zip(Arm, self._arms, strict=True):
            said = canvas.cut(f"{arm.value}: {one.name}", width)
            y = canvas.text(said, (theme.MARGIN, y)) + 18
        lines = (f"On the level: {self._level}", f"{self._far.words}. {UNTOLD}", self._trouble)
        for line in filter(None, lines):
            y = canvas.text(line, (theme.MARGIN, y), width=width) + 18


class GivingUp(Menu[bool]):
    """Ends with whether it is given up."""

    name = "give up"

    def __init__(self, far: Far) -> None:
        super().__init__(
            [Choice("No, keep it", False), Choice("Give it up", True)], back=False
        )
        self._far = far

    def picture(self, canvas: Canvas) -> None:
        """What would be lost, and what not."""
        listed(
            canvas,
            title(canvas, "Give the trial up?") + 20,
            (
                f"{self._far.words}.",
                "One that is given up tells nothing: a part of it would fool you.",
                "Its repetitions stay in the history.",
            ),
        )


class GivenUp(Menu[bool]):
    """A trial that was given up: how far it came, and no more. Ends with going on."""

    name = "given up"

    def __init__(self, arms: tuple[SetUp, SetUp], far: Far) -> None:
        super().__init__([Choice("Back", True)], back=True)
        self._arms = arms
        self._far = far

    def details(self) -> Mapping[str, object]:
        """The choice, and how far it came."""
        return {**super().details(), "far": self._far.words}

    def picture(self, canvas: Canvas) -> None:
        """What it was and how far it came."""
        y = title(canvas, "This trial was given up") + 20
        width = theme.WIDTH - 2 * theme.MARGIN
        for arm, one in zip(Arm, self._arms, strict=True):
            said = canvas.cut(f"{arm.value}: {one.name}", width)
            y = canvas.text(said, (theme.MARGIN, y)) + 18
        said = f"{self._far.words}. That is too little to tell, and so nothing is told of the score."
        canvas.text(said, (theme.MARGIN, y), width=width)


class NoTrial(Menu[bool]):
    """No trial can be played now, and why. Ends with going back."""

    name = "no trial"

    def __init__(self, why: str) -> None:
        super().__init__([Choice("Back", True)], back=True)
        self._why = why

    def details(self) -> Mapping[str, object]:
        """The choice, and why."""
        return {**super().details(), "why": self._why}

    def picture(self, canvas: Canvas) -> None:
        """Why."""
        y = title(canvas, HEADING) + 20
        width = theme.WIDTH - 2 * theme.MARGIN
        canvas.text(self._why, (theme.MARGIN, y), theme.BODY + 4, width=width)


class PastTrials(Menu[int]):
    """Ends with the number of a trial to look at again; 0 goes back."""

    name = "past trials"

    def __init__(self, trials: Sequence[tuple[int, str, str]]) -> None:
        """`trials`: the number, what was tried, and when and how it ended, the newest first."""
        choices = [Choice(tried, number, note) for number, tried, note in trials]
        super().__init__([*choices, Choice("Back", 0)], back=0)

    def picture(self, canvas: Canvas) -> None:
        """Only the heading."""
        title(canvas, "Past trials")


class ChangeOver(Menu[bool]):
    """Before a block: the foot changes over, and nothing hurries it. Ends with whether to go on."""

    name = "change over"
    back_word = "stop for now"

    def __init__(self, arm: Arm, one: SetUp, changes: Sequence[bool], far: Far) -> None:
        """`one` is the set-up that comes now; `changes` says of each of its things whether it is
        another in the other set-up.
        """
        between = not far.done and far.block % 2 == 1 and far.pairs > 0
        left = BLOCK - far.done
        go = f"Ready: {left} repetition{'s' if left > 1 else ''}"
        stop = Choice("Stop for today", False, "a pair is done") if between else None
        super().__init__([Choice(go, True), stop or Choice("Stop for now", False)], back=False)
        self._arm = arm
        self._one = one
        self._changes = tuple(changes)
        self._far = far

    def details(self) -> Mapping[str, object]:
        """The choices, which arm comes, and how far the trial is."""
        far = self._far
        return {
            **super().details(),
            "arm": self._arm.value,
            "block": far.block,
            "done": far.done,
        }

    def picture(self, canvas: Canvas) -> None:
        """How the foot stands now, what of it is another, and that there is time."""
        left, width = theme.MARGIN, theme.WIDTH - 2 * theme.MARGIN
        y = title(canvas, canvas.cut(f"Now {self._arm.value}: {self._one.name}", width, theme.LARGE))
        for line, is_new in zip(in_words(self._one), self._changes, strict=True):
            if is_new:
                canvas.shape([(left, y + 6), (left, y + 34), (left + 22, y + 20)], theme.BRAKE)
            colour = theme.TEXT if is_new else theme.QUIET
            y = canvas.text(line, (left + 48, y), theme.BODY, colour) + 12
        if self._one.note:
            y = canvas.text(f'Your note: "{self._one.note}"', (left, y + 6), width=width) + 10
        far = self._far
        place = f"Pair {(far.block + 1) // 2} of {far.of}, block {far.block} of {far.blocks}"
        if far.done:
            place += f", {far.done} of {BLOCK} done"
        y = canvas.text(f"{place}.", (left, y + 24), theme.BODY) + 12
        canvas.text(NO_HURRY, (left, y), theme.BODY, theme.QUIET, width=width)


NO_HURRY = (
    "Change over in your own time: it waits. Then take the foot off all pedals, place it as it "
    "says here, and go on."
)
"""What is said before a block."""


class Paused(Enum):
    """What to do now."""

    ON = "on"
    STOP = "stop"
    GIVE_UP = "give up"


class TrialPause(Menu[Paused]):
    """The small menu of a trial. Going back goes on."""

    name = "trial menu"
    back_word = "go on"

    def __init__(self, far: Far) -> None:
        super().__init__(
            [
                Choice("Go on", Paused.ON),
                Choice("Stop for now", Paused.STOP, "it goes on where you stopped"),
                Choice("Give the trial up", Paused.GIVE_UP),
            ],
            back=Paused.ON,
        )
        self._far = far

    def picture(self, canvas: Canvas) -> None:
        """How far it is, and that it is kept."""
        far = self._far
        listed(
            canvas,
            title(canvas, "A pause") + 20,
            (
                f"Block {far.block} of {far.blocks}: {far.done} of {BLOCK} repetitions are done, "
                "and kept.",
                UNTOLD,
            ),
        )


class Recalibrated(Menu[bool]):
    """The pedals were set up anew since the trial began. Ends with whether to go on all the same."""

    name = "trial recalibrated"

    def __init__(self) -> None:
        super().__init__(
            [
                Choice("Not now", False, "to set them up as they were, or to begin another trial"),
                Choice("Go on all the same", True, "the end will say so"),
            ],
            back=False,
        )

    def picture(self, canvas: Canvas) -> None:
        """What happened, and what it may do."""
        listed(
            canvas,
            title(canvas, "The pedals were set up anew") + 20,
            (
                "They read otherwise than when this trial began.",
                "A point of dip may be another length of pedal now, and A and B are compared "
                "across that.",
            ),
        )


def listed(canvas: Canvas, y: float, lines: Sequence[str]) -> None:
    """Lines under each other, each with its mark."""
    width = theme.WIDTH - 2 * theme.MARGIN - 48
    for line in lines:
        canvas.disc((theme.MARGIN + 12, y + 21), 8, theme.BRAKE)
        y = canvas.text(line, (theme.MARGIN + 48, y), theme.BODY + 2, width=width) + 24


def _past(count: int) -> list[Choice[Door]]:
    some = "one trial" if count == 1 else f"{count} trials"
    return [Choice("Look at past ones", Door.PAST, some)] if count else []
