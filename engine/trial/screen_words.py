"""Words of the screens before and during a trial: its menu, its set-ups, its length, its pauses."""

from __future__ import annotations

from engine.practice.blip_size import BLIP
from engine.trial.trial import BLOCK, DAY_BLIPS, DAY_PAIRS, Arm

HEADING = "Try a foot position"
"""Title of the trial menu."""
QUESTION = "A or B: which foot position is steadier?"
"""Lead sentence of the trial menu."""
IN_BLOCKS = (
    "In blocks",
    (
        "Five repetitions of A, five of B: a pair.",
        "6 to 16 pairs, on one day or several.",
        f"Every blip goes to {BLIP:g} %. One far off is repeated.",
    ),
)
"""Heading and lines on a trial in blocks, in the trial menu."""
BY_DAYS = (
    "By days",
    (
        f"{2 * DAY_PAIRS} days of your five minutes.",
        "Each day is played with A or with B.",
        "No extra repetitions.",
    ),
)
"""Heading and lines on a trial by days, in the trial menu."""
FAIR = "Chance decides which comes first, so practice favours neither."
"""Sentence on why a trial is fair, in the trial menu."""
UNTOLD = "The score stays hidden until the end."
"""Reminder, while a trial is under way, that its score is not shown yet."""

NO_LEVEL = "A trial needs a level of blips. None is open yet. Practise on: it comes soon."
"""Refusal to begin a trial while the player has no open level of blips to play it on."""
NO_BLIPS = (
    "A trial by days compares steadiness blips. Your five minutes have none yet. "
    "Practise on: they come soon."
)
"""Refusal to begin a trial by days while the player's sessions have no steadiness blips."""
FEET_ONLY = "A trial is of feet on pedals. This is a try-out: nothing of it is saved."
"""Refusal to open the trials to a player without pedals."""
LEVEL_GONE = "Its level is not there any more. Bring its file back, or give it up."
"""Reason why a trial cannot go on: its level's file is missing."""

PURPOSES = {
    Arm.A: "A is how the foot stands now.",
    Arm.B: "B is what you would like to try. Change one thing alone.",
}
"""Explanation of what set-up A and set-up B stand for in a trial."""
UNNAMED = "made from what differs"
"""Text in place of the name of a set-up that the player has not named."""
THE_SAME = "B is the same as A. Change a line, or give it a name."
"""Refusal of two set-ups that do not differ: there would be nothing to compare."""
ONE_LEVEL = "Both are tried on the same level."
"""Explanation under the question which level a trial is on."""

CHANGE_COUNTS = "Changing over is part of a trial's time. You can alter this later."
"""Explanation under the question how long a change of set-up takes."""
OF_PAIRS = "A pair is five repetitions of A and five of B."
"""Explanation of pairs of blocks."""
FIXED = "The number is fixed now: stopping early would fool you."
"""Explanation of why the number of pairs cannot be changed later."""
FINDS = '"Finds": 8 of 10 trials tell such a difference.'
"""Meaning of the difference beside each length of a trial."""
OF_DAYS = "Spread it over days if you like. Stop after any pair."
"""Explanation of a trial that is not played in one go."""

NO_HURRY = "Change over in your own time: it waits. Then place the foot and go on."
"""Advice to take time for the change of set-up before a block."""
LATER = "If you stop, it goes on from here later."
"""Sentence on a trial that is stopped in the middle, in its pause menu."""
SET_UP_AGAIN = "The pedals were set up again"
"""Heading of the warning that the pedals were calibrated during a trial."""
READ_OTHERWISE = (
    "They read differently than when this trial began.",
    "A point may now be another length of pedal travel.",
    "Set them up as before, or begin another trial.",
    "If you go on, the end will say so.",
)
"""Sentences of the warning that the pedals were calibrated during a trial."""
TELLS_NOTHING = "A trial that is given up tells nothing."
"""Sentence on what is lost when a trial is given up."""
STAY = "Its repetitions stay in the history."
"""Sentence on what stays when a trial is given up."""
TOO_LITTLE = "That is too little to tell anything."
"""Sentence on a trial that was given up."""

LASTS = f"{2 * DAY_PAIRS} days of five minutes, with no extra repetitions."
"""Sentence on how long a trial by days takes."""
COMPARED = "Your steadiness blips of these days are compared."
"""Sentence on what a trial by days compares."""
BY_CHANCE = "Chance decides each pair of days: A first, or B."
"""Sentence on the order of the days of a trial by days."""
MIXED_FIGURES = "Your practice figures go on, A and B together."
"""What is shown while a trial by days is under way, said before it begins and in its menu."""
UNCOMPARED = "A and B are not compared before the end."
"""What is not shown while a trial by days is under way."""
GOES_ON = "It goes on with your five minutes."
"""How a trial by days goes on, in its menu."""
WHOLE_SESSION = "Play all of today's five minutes with it."
"""Sentence on how long the set-up of the day is kept."""
SET_UP_SINCE = "The pedals were set up again since. The end will say so."
"""Warning that days of a trial were read with different calibrations."""
BEGUN = "You began the day with it."
"""Sentence on a day of a trial that was begun in an earlier session."""


def once_more(earlier: int) -> str:
    """Sentence on why a day is played again: it had too few steadiness blips, so many."""
    return f"{earlier} of {DAY_BLIPS} steadiness blips so far: the day comes again."


def in_block(done: int) -> str:
    """Sentence on how far the current block is, after so many repetitions that count."""
    return f"{done} of {BLOCK} repetitions of this block are done."
