"""Words about levels and stages on the ladder: their states, limits, and what opens them."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from types import MappingProxyType

from drills.health.words import PARTLY_LUCK
from drills.level import Level
from drills.measures.catalogue import CATALOGUE
from engine.ladder.ladder import DONE, RETAINED, LadderLevel, LadderStage, State
from engine.practice.passes import SOUND, lacking_words
from engine.practice.personal_limit import PersonalLimit
from engine.practice.personal_words import personal_words

FIND_PLACE = "Find my place"
"""Name of the placing set, as a choice and as a heading."""
PLACING = "Up to {most} repetitions show which stage to begin at."
"""What the placing set does; `{most}` stands for its largest number of repetitions."""
LATER = {
    State.RETAINED: ": on a later day",
    State.WELL_RETAINED: ": after a week",
}
"""Words in the legend that explain the mark of a retained level, by its state."""
NEXT = "next"
"""Word in the legend for the bar below the mark of the level to practise next."""
NUMBER = re.compile(r"\d+(?:\.\d+)?")
"""Numbers in a text."""


def limit_words(level: Level) -> str:
    """First limit of a level in words; empty if it has none or its purpose has the number."""
    name, limit = next(iter(level.limits.items()), ("", 0.0))
    number = f"{limit:g}"
    if name not in CATALOGUE or number in NUMBER.findall(level.purpose):
        return ""
    measure = CATALOGUE[name]
    side = "most" if measure.less_is_better else "least"
    return f"{measure.label}: at {side} {measure.with_unit(number)}"


def level_note(
    rung: LadderLevel,
    due: Mapping[str, str],
    lucky: frozenset[str],
    personal: Mapping[str, PersonalLimit] = MappingProxyType({}),
) -> str:
    """State of a level that is done, its personal limit, its next check-up, and any luck.

    The personal limit, by the level's id, is told of a retained level alone.
    """
    done = rung.state in DONE
    state = [rung.state.value, _limit(rung, personal), due.get(rung.level.id, "")] if done else []
    return ", ".join(filter(None, [*state, PARTLY_LUCK if rung.level.id in lucky else ""]))


def _limit(rung: LadderLevel, personal: Mapping[str, PersonalLimit]) -> str:
    """Personal limit of a retained level in words; empty where there is nothing of one."""
    limit = personal.get(rung.level.id)
    return "" if limit is None or rung.state not in RETAINED else personal_words(limit)


def due_words(days: int) -> str:
    """When a retention check is due that is due in some days, in words."""
    if days <= 0:
        return "check-up today"
    return "check-up tomorrow" if days == 1 else f"check-up in {days} days"


TURN_ON = ": turn it on under More"
"""What opens a level that needs nothing but sound, after "needs sound"."""


def closed_words(
    level: Level, stages: Sequence[LadderStage], pedals: frozenset[str], lucky: frozenset[str]
) -> str:
    """Line about a level that cannot be played: its title, and why it is closed."""
    luck = f" ({PARTLY_LUCK})" if level.id in lucky else ""
    return f"{level.title}{luck}: {why_closed(level, stages, pedals)}"


def why_closed(level: Level, stages: Sequence[LadderStage], pedals: frozenset[str]) -> str:
    """Why a level is closed, in words: pedals or sound missing, or levels to pass first."""
    missing = lacking_words(level, pedals)
    if missing:
        return f"needs {missing}{TURN_ON if missing == SOUND else ''}"
    rungs = {rung.level.id: rung for ladder_stage in stages for rung in ladder_stage.rungs}
    needed = [rungs[need] for need in level.needs if need in rungs]
    return f"opens after {', '.join(rung.level.title for rung in needed if rung.state not in DONE)}"


def done_words(stages: Sequence[LadderStage]) -> str:
    """How many levels of these stages are passed, in words such as "3 of 6 passed"."""
    rungs = [rung for ladder_stage in stages for rung in ladder_stage.rungs]
    placed = any(rung.state is State.PLACED for rung in rungs)
    done = sum(ladder_stage.done for ladder_stage in stages)
    return f"{done} of {len(rungs)} passed{' or placed' if placed else ''}"
