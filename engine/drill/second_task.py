"""`answered`: asks for the answer to the second task, and judges the repetition by it too."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from drills.kinds.counting import is_counted
from drills.score import Reason, Verdict
from drills.task import Knock
from engine.drill.count_screen import CountAnswer, NoCount
from engine.kit.base import Place
from engine.kit.flow import show
from engine.pedals.rig import Rig
from engine.stage.scene import Flow
from engine.stage.stage import Stage


def answered(
    verdict: Verdict, knocks: Sequence[Knock], place: Place, rig: Rig, stage: Stage, *, heard: bool
) -> Flow[Verdict]:
    """Verdict on a repetition whose second task gave these knocks, once the player has answered.

    Nothing is asked after a repetition that is void or was left, nor where the sound went away in
    it (`heard`), which makes it void: an answer would say nothing then. To leave the question
    counts as leaving the repetition.
    """
    if verdict.void or verdict.reason is Reason.WALKED_OUT:
        return verdict
    if not heard:
        return Verdict(Reason.UNHEARD)
    counted = yield from show(CountAnswer(place), rig, stage)
    if isinstance(counted, NoCount):
        return Verdict(Reason.WALKED_OUT, 0.0)
    high = sum(knock.is_high for knock in knocks)
    answer = {"knocks": float(high), "counted": float(counted)}
    if not is_counted(high, counted):
        return Verdict(Reason.MISCOUNTED, measures=answer)
    return replace(verdict, measures={**verdict.measures, **answer})
