"""Home, the ladder and the lists of levels, with any part of the climb behind the player."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from drills.level import Level
from engine.game.entries import HOME
from engine.game.entry import Entry, choices_of
from engine.game.facts import Facts
from engine.game.home import Home
from engine.kit.base import Screen
from engine.ladder.ladder import ladder_stages
from engine.ladder.ladder_screen import Ladder
from engine.ladder.level_list import LevelList
from engine.practice.passes import ALL_PEDALS
from engine.practice.results import Streaks
from engine.stage.actions import Action
from tests.engine.ladder.stages import TWO, climbed, made_levels, ten_stages

SOME = Streaks(today=12, clean_today=7, clean_streak=3, days_streak=5)
MANY = Streaks(today=340, clean_today=112, clean_streak=108, days_streak=365)


def at_home(level: Level, placing: bool = False) -> Home:
    """Home with a level to practise next, the only one there is."""
    return home((replace(level, needs=()),), placing=placing)


def home(
    levels: Sequence[Level],
    passed: int = 0,
    placed: int = 0,
    pedals: frozenset[str] = ALL_PEDALS,
    *,
    streaks: Streaks = SOME,
    placing: bool = False,
) -> Home:
    """Home after so many of the levels were placed and then passed."""
    stages, following = climbed(levels, passed, placed, pedals)
    facts = Facts(
        streaks, following, stages, five="", pedals="playing with the mouse", placing=placing
    )
    return Home(facts, choices_of(HOME, facts))


def label_of(entry: object) -> str:
    """What an entry of home or More says, with everything on offer."""
    assert isinstance(entry, Entry)
    level = made_levels()[0]
    words = entry.words(Facts(SOME, level, [], five="five", placing=True, trial="1 of 6"))
    return "" if words is None else words[0]


def ladder(
    levels: Sequence[Level],
    passed: int = 0,
    placed: int = 0,
    pedals: frozenset[str] = ALL_PEDALS,
    moves: int = 0,
) -> Ladder:
    """The ladder, some throttle taps after it was opened."""
    stages, following = climbed(levels, passed, placed, pedals)
    screen = Ladder(stages, following, pedals)
    for _ in range(moves):
        screen.on_action(Action.NEXT)
    return screen


def level_list(
    levels: Sequence[Level],
    stage: int = 0,
    passed: int = 0,
    placed: int = 0,
    pedals: frozenset[str] = ALL_PEDALS,
    lucky: frozenset[str] = frozenset(),
) -> LevelList:
    """The levels of one of the stages."""
    stages, _ = climbed(levels, passed, placed, pedals)
    return LevelList(stages[stage], stages, pedals, lucky=lucky)


def climbing_screens(shipped: Sequence[Level]) -> Mapping[str, Screen[Any]]:
    """The screens of the climb by a name: on the levels that ship and on a long ladder."""
    long = made_levels("Three blips", "A fourth")
    every = {"shipped": shipped, "long": long, "seven": made_levels(), "ten": ten_stages()}
    counts = {name: sorted({0, len(one) // 2, len(one)}) for name, one in every.items()}
    cases = [(name, count) for name in every for count in counts[name]]
    widest = sorted(shipped, key=lambda level: len(level.title + level.purpose))[-4:]
    stages = range(len(ladder_stages(long, frozenset())))
    every_id = frozenset(level.id for level in shipped)
    shipped_stages = range(len(ladder_stages(shipped, frozenset())))
    return {
        **{
            f"home {level.id}": home(shipped, number)
            for number, level in enumerate(shipped)
            if level in widest
        },
        **{f"home {name} {count}": home(every[name], count) for name, count in cases},
        "home placing": home(long, 8, 6, placing=True),
        "home placing, long practised": home(long, 30, 2, placing=True, streaks=MANY),
        "home without clutch": home(long, 10, 6, TWO, placing=True),
        **{f"ladder {name} {count}": ladder(every[name], count) for name, count in cases},
        "ladder placing": Ladder(*climbed(shipped), placing=True),
        **{f"ladder walked {moves}": ladder(long, 8, 6, TWO, moves) for moves in range(10)},
        **{
            f"levels of shipped {stage}, {count}": level_list(shipped, stage, count)
            for stage in shipped_stages
            for count in counts["shipped"]
        },
        **{f"levels of {stage}": level_list(long, stage, 14, 2, TWO) for stage in stages},
        **{f"levels of {stage} passed": level_list(long, stage, len(long)) for stage in stages},
        **{
            f"levels of luck {stage}, {count}": level_list(shipped, stage, count, lucky=every_id)
            for stage in shipped_stages
            for count in (0, len(shipped))
        },
    }
