"""Every screen of the engine, with contents as they come up in play."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import timedelta
from functools import cache
from typing import Any

import numpy as np

from drills.kinds.asked_size import SIZE, with_size
from drills.level import Level
from drills.score import Reason, Verdict
from drills.trace import Pedal, Sample
from engine.drill.count_screen import CountAnswer
from engine.drill.count_trouble import CountTroubleMenu
from engine.drill.guess_screen import Guess
from engine.drill.interruptions import Busy, SmallMenu, Unplugged
from engine.drill.off_size import OffSize
from engine.drill.pedal_trouble import TROUBLES, PedalTrouble
from engine.drill.repetition_screen import RepetitionScreen
from engine.drill.reveal import Reveal
from engine.drill.reveal_facts import RevealFacts
from engine.drill.reveal_words import of_limit_words
from engine.drill.set_end import SetEnd
from engine.drill.set_log import SetLog, set_tally
from engine.drill.summary import Summary
from engine.drill.tally import Tally
from engine.game.cautions import Cautions
from engine.game.fill_screen import FillScreen
from engine.game.remeasuring import Copying, NotCopied
from engine.kit.base import Place, Screen
from engine.kit.repetition_marks import Mark
from engine.pedals.rig import Means
from engine.practice.retention import Retention
from engine.setup.no_pedals import NoPedals
from tests.engine.drill.pictures import longest_named, looking_back_screens, summary
from tests.engine.drill.replay_pictures import replay_screens
from tests.engine.drill.shift_pictures import shift_screens
from tests.engine.drill.watched_pictures import watched_screens
from tests.engine.five.coach_pictures import coach_screens
from tests.engine.five.day_pictures import day_screens
from tests.engine.five.pictures import five_screens, tried_out
from tests.engine.game.pictures import history_trouble_screens, sound_screens
from tests.engine.ladder.pictures import at_home, climbing_screens
from tests.engine.progress.pictures import history_screens
from tests.engine.repetitions_shown import Shown
from tests.engine.road.pictures import road_screens
from tests.engine.setup.health_pictures import health_screens
from tests.engine.setup.pictures import binding_screens
from tests.engine.shipped_played import BY_ID, DATE, LEVELS, shipped_repetitions
from tests.engine.trial.days_pictures import days_screens
from tests.engine.trial.pictures import trial_screens
from tests.fakes import a_stage

FIRST_OF_KIND = [
    next(level for level in LEVELS if level.kind.name == name)
    for name in ("squeeze", "run", "trail", "clutch")
]
SOME = (Mark.CLEAN, Mark.VOID, Mark.MISSED)
LATE = Place(12, 0, why="check-up again: missed 5 days ago", marks=(Mark.CLEAN,) * 14)
CHECKED = Retention(DATE.date() + timedelta(days=7), 2, day=DATE.date())


def reveal_of(
    level: Level,
    shown: Sequence[Shown],
    place: Place = Place(6, 10),  # noqa: B008
) -> Reveal:
    """Reveal of the last of some repetitions."""
    *before, last = shown
    earlier = [one.deviation for one in before[-5:] if one.deviation is not None]
    record = last.record
    return Reveal(
        RevealFacts(level, record.verdict, last.deviation, earlier, place, record.sampling)
    )


def guessed_reveal(level: Level) -> Reveal:
    """Reveal of a repetition whose result was guessed."""
    [one] = shipped_repetitions(level.id, 0.3, 7, 1)
    record = one.record
    place = Place(1, 10)
    return Reveal(
        RevealFacts(level, record.verdict, one.deviation, (), place, record.sampling, 9.0)
    )


def summed(level: Level, skill: float) -> Summary:
    """Summary of five repetitions."""
    shown = shipped_repetitions(level.id, skill, 5, 5)
    pictures = [one.deviation for one in shown if one.deviation is not None]
    return summary(level, [one.record for one in shown], pictures)


def reveal(level: Level, skill: float = 0.2) -> Reveal:
    """Reveal of a sixth repetition over five before it."""
    return reveal_of(level, shipped_repetitions(level.id, skill, 7, 6))


def ended(level: Level, reason: Reason, *, is_luck: bool = False) -> Reveal:
    """Reveal of a repetition that ended without a plot."""
    verdict = Verdict(reason) if reason.void else Verdict(reason, 0.0)
    if reason is Reason.OFF_SIZE:
        level, verdict = with_size(level, 60.0), replace(verdict, measures={"peak": 92.4})
    return Reveal(RevealFacts(level, verdict, None, (), Place(2, 10), is_luck=is_luck))


def counted_reveal(level: Level) -> Reveal:
    """Reveal of a repetition with knocks, and how many were counted."""
    made = shipped_repetitions(level.id, 0.6, 7, 1)[0]
    measures = {**made.record.verdict.measures, "knocks": 5.0, "counted": 4.0}
    verdict = replace(made.record.verdict, measures=measures)
    return Reveal(RevealFacts(level, verdict, made.deviation, (), Place(3, 10)))


ENDS = {
    "run": (Reason.FEW_BLIPS, Reason.OFF_BEAT),
    "trail": (Reason.CUT_SHORT, Reason.NOT_EASED),
    "squeeze": (Reason.NOT_PRESSED,),
    "counting": (Reason.MISCOUNTED, Reason.UNHEARD),
    "clutch": (
        *(Reason.NO_CLUTCH, Reason.BLIP_FIRST, Reason.CLUTCH_FIRST, Reason.CLUTCH_STAYED),
        *(Reason.SHIFT_FIRST, Reason.SHIFT_LAST),
    ),
}
"""Reasons that only repetitions of some kinds can end with."""


def able_to_end(reason: Reason) -> Level:
    """Level of a kind whose repetitions may end with this reason."""
    kind = next((name for name, reasons in ENDS.items() if reason in reasons), "blip")
    return next(level for level in LEVELS if level.kind.name == kind)


def towards_own(level: Level) -> Reveal:
    """Reveal of a repetition that was asked for towards a lower personal limit."""
    made = shipped_repetitions(level.id, 0.9, 7, 1)[0]
    verdict, words = made.record.verdict, of_limit_words(level, made.record.verdict)
    return Reveal(RevealFacts(level, verdict, made.deviation, (), Place(6, 10), of_limit=words))


def set_end(level: Level, skill: float, seed: int, **changes: Any) -> SetEnd:
    """End of a set of ten by the simulated foot, marked as by real feet."""
    kept = SetLog(level, None)
    for one in shipped_repetitions(level.id, skill, seed, 10):
        kept.add(replace(one.record, feet=True))
        if one.deviation is not None:
            kept.pictures = (*kept.pictures, one.deviation)
    tally = replace(set_tally(kept, lambda: DATE), **changes)
    return SetEnd(level, tally, BY_ID["blip-2-closer"] if tally.passed else level, kept.pictures)


def by_feet(screen: Screen[Any]) -> Screen[Any]:
    """The screen with pedals and wheel buttons named in its hint."""
    screen.on_means(Means(feet=True, buttons=True))
    return screen


def repeating(
    level: Level,
    *samples: tuple[float, float],
    focused: bool = True,
    place: Place = Place(3, 10, marks=SOME),  # noqa: B008
) -> RepetitionScreen:
    """Screen of a repetition after some samples of brake and throttle."""
    task = level.kind.task(level, level.targets.least, np.random.default_rng(1))
    screen = RepetitionScreen(level, task, place, a_stage(), 0)
    screen.on_focus(focused, 0)
    for number, (brake, throttle) in enumerate(samples):
        screen.on_sample(Sample(number * 1_000_000, brake, throttle), number * 1_000_000)
    return screen


@cache
def every_screen() -> Mapping[str, Screen[Any]]:
    """Every screen of the engine by a name, with contents as they come up in play."""
    blip, hold = BY_ID["blip-1-first"], BY_ID["still-3-dark"]
    played = shipped_repetitions(blip.id, 0.5, 5, 8)
    blips = [one.deviation for one in played if one.deviation is not None]
    return {
        **five_screens(LEVELS, blips),
        **day_screens(LEVELS, blips),
        **coach_screens(),
        "cautions": Cautions(),
        "fill the screen": FillScreen(dict),
        "copying": Copying(lambda: None),
        "not copied": NotCopied(
            "/home/somebody/.local/share/stillfoot/history-before-remeasuring-2024-05-17.sqlite3: "
            "expected a file to write to, found: database or disk is full"
        ),
        **history_trouble_screens(),
        **climbing_screens(LEVELS),
        **sound_screens(),
        "no pedals": NoPedals(saved=False, plugged=0),
        "other pedals": NoPedals(saved=True, plugged=2),
        "unplugged": Unplugged(),
        "unplugged twins": Unplugged(alike=True),
        "set end": set_end(blip, 0.1, 3),
        "set passed": set_end(blip, 0.9, 4, passed_now=True),
        "set tried out": tried_out(set_end(blip, 0.6, 4, is_tryout=True, passed=False)),
        "set of a check-up": set_end(blip, 0.9, 4, passed=True, passed_now=False, shown=CHECKED),
        "set that tires": set_end(blip, 0.1, 3, tires=True, void=2, best=9, best_before=8),
        "set of a personal limit": set_end(
            blip,
            0.9,
            4,
            passed=True,
            passed_now=False,
            personal="0.62 of the limit now.",
        ),
        "set of nothing": SetEnd(hold, Tally(0, 0, 3, None, 0, 0, False, given_up=True), hold),
        "set of holds": set_end(hold, 0.3, 5),
        "pause": SmallMenu(2, 10, Place(3, 10, marks=SOME)),
        "pause that teaches": by_feet(SmallMenu(2, 10, Place(3, 10, marks=SOME), movement=True)),
        "pause tried out": tried_out(SmallMenu(4, 10)),
        "pause at once": SmallMenu(0, 10),
        "busy": Busy(),
        **{
            f"trouble {reason}": PedalTrouble(reason, Pedal.THROTTLE, can_check=True)
            for reason in TROUBLES
        },
        "trouble without a check": PedalTrouble(Reason.AT_END, Pedal.BRAKE, can_check=False),
        "reveal blip": reveal(blip),
        "reveal clean blip": reveal(blip, 0.9),
        "reveal of a personal limit": by_feet(towards_own(blip)),
        "reveal hold": reveal(hold),
        **{f"reveal {reason}": ended(able_to_end(reason), reason) for reason in Reason},
        "reveal by feet": by_feet(reveal(blip)),
        "reveal of luck": by_feet(ended(blip, Reason.OVER_LIMIT, is_luck=True)),
        "home by feet": by_feet(at_home(blip)),
        "repeat by feet": by_feet(repeating(blip, (0.0, 0.0), (57.0, 0.0))),
        **watched_screens(blip, BY_ID["clutch-1-order"]),
        "repeat blip": repeating(blip, (0.0, 0.0), (57.0, 0.0)),
        "repeat throttle": repeating(blip, (0.0, 0.0), (57.0, 30.0), (57.0, 30.0)),
        "repeat unfocused": repeating(blip, focused=False),
        "repeat hold": repeating(hold, (0.0, 0.0), (70.0, 0.0), (70.0, 0.0)),
        **{
            f"{name} {level.id}": screen
            for level in FIRST_OF_KIND
            for name, screen in (
                ("reveal", by_feet(reveal_of(level, shipped_repetitions(level.id, 0.4, 7, 2)))),
                ("repeat", by_feet(repeating(level, (0.0, 0.0), (20.0, 0.0)))),
            )
        },
        **{
            f"sized {level.id}": by_feet(repeating(with_size(level, 60.0), (0.0, 0.0), (20.0, 0.0)))
            for level in (blip, *FIRST_OF_KIND)
            if SIZE in level.own
        },
        "count": CountAnswer(Place(3, 10)),
        "count by feet": by_feet(CountAnswer(Place(3, 0, left=0.6))),
        "miscounted": CountTroubleMenu(Reason.MISCOUNTED),
        "not heard": CountTroubleMenu(Reason.UNHEARD),
        "reveal counted": counted_reveal(BY_ID["count-1-easy"]),
        "off size, too big": OffSize(with_size(blip, 60.0), (92.4, 88.0, 95.1)),
        "off size, too light": OffSize(with_size(blip, 60.0), (31.0, 39.96, 12.0)),
        "off size, uneven": OffSize(with_size(blip, 60.0), (31.0, 88.0, 92.0)),
        "summary": summed(BY_ID["quiet-five"], 0.6),
        "summary of all missed": summed(BY_ID["run-5-four"], 0.2),
        "repeat mixed": repeating(blip, (0.0, 0.0), (57.0, 0.0), place=longest_named(LEVELS)),
        "repeat of five": repeating(blip, (0.0, 0.0), (57.0, 0.0), place=LATE),
        "repeat of five, long": repeating(
            BY_ID["ease-5-two"],
            (57.0, 0.0),
            place=replace(LATE, why="easier first: Two on the way down"),
        ),
        "repeat of five, own": repeating(
            BY_ID["run-1-two"], (57.0, 0.0), place=replace(LATE, why="your limit: 0.62, best 0.58")
        ),
        "repeat first": by_feet(repeating(blip, (0.0, 0.0), place=Place(1, 10, marks=()))),
        "repeat of many": by_feet(
            repeating(blip, (57.0, 0.0), place=Place(38, 100, marks=(Mark.MISSED,) * 37))
        ),
        "repeat of five mixed": repeating(
            blip,
            (57.0, 0.0),
            place=replace(longest_named(LEVELS), of=0, why="steadiness within 20 points"),
        ),
        "reveal of five": reveal_of(
            blip, shipped_repetitions(blip.id, 0.2, 7, 6), Place(6, 0, left=0.6)
        ),
        "guess of five": Guess("How far did the brake fall?", Place(6, 0, left=0.01)),
        "pause of five": SmallMenu(4, 0, Place(5, 0, left=0.6), movement=True),
        "set end guessed": set_end(
            BY_ID["quiet-guess"], 0.4, 3, guessed_off=4.3, guessed_off_first=9.1
        ),
        "reveal guessed": guessed_reveal(BY_ID["quiet-guess"]),
        **looking_back_screens(LEVELS),
        **replay_screens(BY_ID, shipped_repetitions),
        **binding_screens(),
        **health_screens(LEVELS),
        **history_screens(LEVELS),
        **road_screens(),
        **trial_screens(LEVELS, blips),
        **days_screens(),
        **shift_screens(),
    }
