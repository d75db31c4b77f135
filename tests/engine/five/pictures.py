"""Screens of five minutes and of the warm-up, as they come up on a first day and later."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from datetime import date
from statistics import fmean
from typing import Any

from drills.deviation import Deviation
from drills.fault import Fault
from drills.level import Level
from engine.commands.players import NAME_LONGEST
from engine.drill.tally import Missed
from engine.five.fatigue_screen import FatigueScreen
from engine.five.plan_words import still_there_words
from engine.five.retention_screen import RetentionCheck, RetentionScreen
from engine.five.warm_up_screen import WarmUpScreen
from engine.five.warm_up_words import WarmUpWords, measured_words
from engine.game.entries import HOME, MORE
from engine.game.entry import choices_of
from engine.game.facts import Facts
from engine.game.home import Home, More
from engine.kit.base import Place, Screen
from engine.kit.repetition_marks import Mark
from engine.kit.steadiness_view import SteadinessView
from engine.ladder.ladder import ladder_stages
from engine.ladder.ladder_screen import Ladder
from engine.ladder.ladder_words import due_words
from engine.ladder.level_list import LevelList
from engine.ladder.rise import Rise
from engine.pedals.rig import Means
from engine.practice import retention
from engine.practice.diagnosis import FaultShare
from engine.practice.focus import Focus
from engine.practice.passes import next_level
from engine.practice.personal_limit import PersonalLimit
from engine.practice.remeasuring import Remeasuring
from engine.practice.results import LostStreak, Streaks
from engine.practice.retention import Retention
from tests.engine.five.counting_pictures import counting_session_screens
from tests.engine.ladder.stages import made_levels

CLEAN, MISSED, VOID = Mark.CLEAN, Mark.MISSED, Mark.VOID
TODAY = date(2024, 5, 17)
FIRST_DAY = Streaks(today=0, clean_today=0, clean_streak=0, days_streak=0)
LATER = Streaks(12, 7, 3, 5, 9, 12, date(2024, 5, 13), rest_left=True)
NOT_YET_TODAY = replace(LATER, today=0, clean_today=0, rest_left=False)
BEST = Streaks(340, 112, 108, 365, 108, 365, date(2023, 5, 18), rest_left=True)
LOST = LostStreak(12, date(2024, 5, 3), date(2024, 5, 14))
ANEW = replace(LATER, days_streak=1, lost=LOST)
LONG_LOST = replace(
    LATER,
    days_streak=0,
    best_days_streak=365,
    rest_left=False,
    lost=LostStreak(128, date(2024, 9, 28), date(2025, 2, 2)),
)
EARLY = Focus(FaultShare(Fault.EARLY_ROLL, 22, 40), FaultShare(Fault.EARLY_ROLL, 14, 40), TODAY)
FIVE = "next: 2 of 28 check-ups, steadiness, then Closer to the brake"


def steadiness(days: int) -> SteadinessView:
    """Steadiness after so many days in a row, going down."""
    went = tuple((ago, 6.0 + 0.15 * ago + 0.9 * (ago % 3 - 1)) for ago in reversed(range(days)))
    return SteadinessView(went[-1][1], went[-1][1] - 1.4, went[-1][1] + 1.9, 6, went)


def home(
    levels: Sequence[Level],
    passed: int,
    streaks: Streaks,
    days: int,
    *,
    five: str = FIVE,
    placing: bool = False,
    kept: int = 0,
    blips: int = 0,
    pedals: str = "ready",
    trial: str = "",
    by_days: bool = False,
    focus: Focus | None = None,
    warm_up_counts: bool = False,
    player: str = "",
    remeasuring: Callable[[], Remeasuring | None] = lambda: None,
    rise: Rise | None = None,
) -> Home:
    """Home after so many levels were passed, and a few of them kept."""
    done = frozenset(level.id for level in levels[:passed])
    stages = ladder_stages(levels, done, retention=retentions(levels, kept))
    shown = steadiness(days) if days else None
    following = next_level(levels, done)
    facts = Facts(
        streaks,
        following,
        stages,
        five,
        steadiness=shown,
        today=TODAY,
        blips=blips,
        pedals=pedals,
        placing=placing,
        trial=trial,
        by_days=by_days,
        focus=focus,
        warm_up_counts=warm_up_counts,
        player=player,
        remeasuring=remeasuring(),
    )
    return Home(facts, choices_of(HOME, facts), remeasuring, rise)


def more(
    five: str = "",
    *,
    pedals: str = "ready",
    sound: str = "",
    placing: bool = False,
    trial: str = "",
) -> More:
    """The screen More with these facts; in a try-out where `five` is empty."""
    level = made_levels()[0]
    stages = ladder_stages([level], frozenset())
    given = Facts(
        FIRST_DAY,
        level,
        stages,
        five=five,
        pedals=pedals,
        sound=sound,
        placing=placing,
        trial=trial,
    )
    return More(choices_of(MORE, given))


def tried_out(screen: Screen[Any]) -> Screen[Any]:
    """A screen that says that nothing is saved."""
    screen.on_means(Means(label="Try-out: nothing is saved"))
    return screen


def retentions(levels: Sequence[Level], kept: int) -> Mapping[str, Retention]:
    """The first of some levels kept well, the next few kept."""
    return {
        level.id: Retention(outlasted=3 if number < kept / 2 else 1)
        for number, level in enumerate(levels[:kept])
    }


def shown_again(
    levels: Sequence[Level],
    marks: Sequence[Mark],
    pictures: Sequence[Deviation],
    outcome: retention.CheckOutcome,
    **changes: Any,
) -> RetentionScreen:
    """The end of asking for a level again."""
    longest = max((level.title for level in levels), key=len)
    told = RetentionCheck(
        longest, outcome, tuple(marks), well=False, due_days=3, when="8 days later"
    )
    return RetentionScreen(replace(told, **changes), pictures, Place(5, 0, left=0.7))


EARLIER_WARM_UPS = (6.1, 7.4, 8.0, 6.9, 7.7, 5.8, 7.1, 8.4)
"""Mean deviation of the warm-ups on eight earlier days, in points."""


def warmed(*deviations: float, days: int = 8) -> WarmUpWords:
    """Words for a warm-up with these deviations in points, after a number of earlier days."""
    earlier = (EARLIER_WARM_UPS * 7)[:days]
    return measured_words(fmean(deviations), deviations, earlier)


NOT_ENOUGH = warmed(*[7.2] * 8, days=3)
USUAL = warmed(*[7.2] * 8)
STEADIER = warmed(*[3.1] * 8, days=56)
SHAKY = warmed(*[41.0] * 8)
ONE_BLIP = warmed(*[7.2] * 7, 44.0)


def five_screens(levels: Sequence[Level], pictures: Sequence[Deviation]) -> Mapping[str, Any]:
    """The screens by a name; `pictures` are of blips."""
    kept, not_today = retention.CheckOutcome.RETAINED, retention.CheckOutcome.NOT_TODAY
    four, three = (CLEAN, CLEAN, MISSED, CLEAN, CLEAN), (CLEAN, MISSED, VOID) * 3
    several = ladder_stages(
        levels, frozenset(level.id for level in levels[:8]), retention=retentions(levels, 6)
    )
    personal = {
        level.id: PersonalLimit((0.62,) * 36 if n % 3 else (0.62,) * 12, 0.58 if n % 2 else None)
        for n, level in enumerate(levels[:9])
    }
    due = {level.id: due_words(n + 2) for n, level in enumerate(levels[:6])}
    screens: Mapping[str, Screen[Any]] = {
        "home first": home(levels, 0, FIRST_DAY, 0, placing=True),
        "home second": home(levels, 2, LATER, 2, five="steadiness, then Stillness with nothing"),
        "home later": home(levels, 11, LATER, 30, kept=8),
        "home not yet today": home(levels, len(levels) // 2, NOT_YET_TODAY, 12, kept=5),
        "home in a trial": home(levels, 11, LATER, 30, kept=8, trial="12 of 16 pairs are done"),
        "home in a trial by days": home(
            levels, 11, LATER, 30, kept=8, trial="3 of 8 pairs of days are done", by_days=True
        ),
        "home of one of several": home(
            levels, 11, LATER, 30, pedals="playing with the mouse", player="W" * NAME_LONGEST
        ),
        "home anew": home(levels, 3, ANEW, 20),
        "home with a fault": home(levels, 11, LATER, 30, kept=8, focus=EARLY),
        "home by itself": home(levels, 11, LATER, 30, kept=8, focus=EARLY, warm_up_counts=True),
        "home with a fault in years": home(levels, len(levels), BEST, 30, kept=20, focus=EARLY),
        "home back": home(
            levels, 20, LONG_LOST, 30, kept=20, five=still_there_words(6, 28), focus=EARLY
        ),
        "home lost": home(levels, len(levels), LONG_LOST, 30, kept=20),
        "home remeasured": home(
            levels, 11, LATER, 30, kept=8, remeasuring=lambda: Remeasuring(123456, 219600)
        ),
        "home best": home(levels, len(levels), BEST, 30, kept=len(levels)),
        "home tried out": tried_out(home(levels, 4, FIRST_DAY, 0, five="")),
        "home tried out later": tried_out(home(levels, 11, LATER, 30, kept=8, five="")),
        "ladder kept": Ladder(several, levels[8]),
        **{
            f"levels kept {number}": LevelList(ladder_stage, several, due=due, personal=personal)
            for number, ladder_stage in enumerate(several[:2])
        },
        "more": more(
            pedals="playing with the mouse", sound="medium", trial="15 of 16 pairs are done"
        ),
        "shown kept": shown_again(levels, four, pictures[:4], kept, missed=Missed("Dip", 1)),
        "shown kept well": shown_again(levels, four, (), kept, well=True, due_days=7),
        "shown not today": shown_again(
            levels, three, pictures[:3], not_today, due_days=1, missed=Missed("Extra blip", 3)
        ),
        "shown again after a rest": shown_again(
            levels, four, pictures[:4], kept, asks="still there?", when="5 weeks later"
        ),
        **counting_session_screens(levels, TODAY),
        "warmed not enough": WarmUpScreen(NOT_ENOUGH),
        "warmed usual": WarmUpScreen(USUAL, pictures),
        "warmed steadier": WarmUpScreen(STEADIER),
        "warmed shaky": WarmUpScreen(SHAKY),
        "warmed but for one blip": WarmUpScreen(ONE_BLIP, pictures),
        "warmed without blips": WarmUpScreen(replace(NOT_ENOUGH, today=None)),
        "tires": FatigueScreen(max((level.title for level in levels), key=len), 14.2),
    }
    return screens
