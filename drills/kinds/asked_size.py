"""One size of blip that a level may ask for: its words, and the void verdict on any other size.

A dip grows with the blip that makes it, so levels whose dips are compared over days ask for blips
of one size. A blip of another size is no failure of the foot: its repetition is void, and repeated.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from drills.digits import outside
from drills.level import Kind, Level
from drills.level_key import Key
from drills.measures.blip import PEAK_LEAST
from drills.remark import Remark
from drills.score import Reason, Verdict

AROUND = 20.0
"""Distance from the size asked at which the peak of a blip still counts, in points, each way."""
UNBOUNDED = 100.0
"""Greatest throttle peak asked that sets no bound, in %: a throttle at its stop may read a little
over it."""
SIZE = "blip.size"
"""Path of the level key that asks for one size of blip."""
BLIP_KEYS = (
    Key(
        *("least", 15, 100, 30),
        table="blip",
        most="most",
        instead="size",
        about="%, least throttle peak asked",
    ),
    Key(
        *("most", 15, 100, 100),
        table="blip",
        instead="size",
        about="%, greatest throttle peak asked; 100 sets no bound",
    ),
    Key("longest", 0.05, 1, 0.6, table="blip", about="s, greatest width of a blip asked"),
    Key(
        *("size", 20, 95, 0),
        table="blip",
        off=0,
        about=f"%, throttle peak asked: a blip over {AROUND:g} points from it is repeated",
    ),
)
"""Keys of a level that say what blip it asks for: its throttle peak and its width."""


class BlippingKind(Kind):
    """A kind of drill whose levels ask for blips, and may ask for one size of them."""

    a_blip: str = "The blip"
    """One of the blips that a repetition asks for, as the beginning of a sentence."""

    def void_remark(self, level: Level, verdict: Verdict) -> Remark:
        if verdict.reason is not Reason.OFF_SIZE:
            return super().void_remark(level, verdict)
        size, (least, most) = level.own[SIZE], peaks_asked(level)
        peak = outside(verdict.amount("peak"), size, AROUND)
        return Remark(
            verdict.reason.value,
            (f"{self.a_blip} reached {peak} %, not {size:g}.", f"Not {size:g} but {peak} %."),
            (f"{least:g} to {most:g} counts: once more.",),
        )


def with_size(level: Level, size: float) -> Level:
    """The level asking for blips of one size, in % at the peak; with 0 it asks for no size.

    Its limits, targets and tolerance stay. A level of a kind without blips is returned as it is.
    """
    if SIZE not in level.own:
        return level
    return replace(level, own={**level.own, SIZE: size})


def peaks_asked(level: Level) -> tuple[float, float]:
    """Least and greatest throttle peak that a level asks for, in %; its size sets them, if any."""
    size = level.own[SIZE]
    if not size:
        return level.own["blip.least"], level.own["blip.most"]
    return max(size - AROUND, PEAK_LEAST), min(size + AROUND, UNBOUNDED)


def to_size(level: Level) -> str:
    """Words after "blip" in a prompt, such as " to 60 %"; empty where no size is asked."""
    size = level.own[SIZE]
    return f" to {size:g} %" if size else ""


def off_size(level: Level, peaks: Sequence[float]) -> Verdict | None:
    """Void verdict where a blip is not of the size asked; None where all are, or none is asked.

    `peaks` are those of the blips asked for, in %; the verdict holds the one furthest off. It goes
    before whatever else the repetition lacks: a repetition that is repeated is not marked.
    """
    size = level.own[SIZE]
    furthest = max(peaks, key=lambda peak: abs(peak - size), default=size)
    if not size or abs(furthest - size) <= AROUND:
        return None
    return Verdict(Reason.OFF_SIZE, measures={"peak": furthest})
