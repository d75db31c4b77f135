"""Ways down that were not what was asked, and the sentence that is said of each."""

from drills.score import Reason
from tests.drills.kinds.made import bump, lines
from tests.drills.kinds.trail_case import DOWN, EASE, STARTS, Case
from tests.drills.kinds.trail_cases import ONE, TWO

FAULTS = (
    Case(
        "not eased off",
        "The brake was not eased off: follow the tone as it falls.",
        lines((0, 60.0)),
        lean=1.0,
        reason=Reason.NOT_EASED,
    ),
    Case(
        "no blip",
        "No blip came: at the click, one short stab while the brake comes down.",
        blips=1,
        lean=None,
        reason=Reason.NO_BLIP,
    ),
    Case(
        "a touch that is no blip",
        "A blip was too light: stab deeper, and as short.",
        blips=1,
        at=(ONE,),
        peak=12.0,
        lean=None,
        reason=Reason.LIGHT,
    ),
    Case(
        "a throttle that stays on",
        "The throttle stayed on too long: one short stab, in and out.",
        blips=1,
        at=(ONE,),
        lengths=(1.3,),
        lean=None,
        reason=Reason.LONG,
    ),
    Case(
        "one of two",
        "There were too few blips: to each click one stab, in and out.",
        blips=2,
        at=(ONE,),
        reason=Reason.FEW_BLIPS,
    ),
    Case(
        "two where one was asked, and a dip",
        "There were too many blips: one to each click, no more.",
        DOWN + bump(-18, ONE),
        1,
        (ONE, TWO),
        None,
        reason=Reason.EXTRA_BLIP,
    ),
    Case(
        "one where none was asked",
        "A blip came where none was asked: leave the throttle alone on the way down.",
        at=(ONE,),
        reason=Reason.EXTRA_BLIP,
    ),
    Case(
        "off with the blip",
        "The brake was off too soon for the blip: stab at the click, while the brake comes down.",
        lines((STARTS, 60.0), (1.45, 0.0)),
        1,
        (ONE,),
        None,
        reason=Reason.CUT_SHORT,
    ),
    Case(
        "off before the blip",
        "The brake was off too soon for the blip: stab at the click, while the brake comes down.",
        lines((STARTS, 60.0), (1.1, 0.0)),
        1,
        (1.3,),
        None,
        reason=Reason.CUT_SHORT,
    ),
    Case(
        "a foot that comes off with the blip and comes back",
        "The foot came off the brake altogether at the blip: "
        "keep the ball of the foot down while its edge rolls.",
        DOWN + bump(-60, ONE, 0.4),
        1,
        (ONE,),
        -1.0,
        reason=Reason.LET_GO,
    ),
    Case(
        "a foot that comes off with one of two and comes back",
        "The foot came off the brake altogether at a blip: "
        "keep the ball of the foot down while its edge rolls.",
        DOWN + bump(-60, ONE, 0.4),
        2,
        (ONE, TWO),
        -1.0,
        reason=Reason.LET_GO,
    ),
    Case(
        "two that came as one",
        "A blip could not be measured: one short stab to each click, and time between them.",
        blips=2,
        at=(ONE, ONE + 0.3),
        reason=Reason.NOT_SCORED,
    ),
    Case(
        "a feather tap",
        "A blip was too light: stab deeper, and as short.",
        blips=1,
        at=(ONE,),
        peak=20.0,
        reason=Reason.LIGHT,
    ),
    Case(
        "a stamp",
        "A blip was too big: stab less deep, and as short.",
        blips=1,
        at=(ONE,),
        peak=95.0,
        blip={"blip.most": 80.0},
        reason=Reason.HEAVY,
    ),
    Case(
        "a long stab",
        "The throttle stayed on too long: one short stab, in and out.",
        blips=1,
        at=(ONE,),
        lengths=(0.7,),
        reason=Reason.LONG,
    ),
    Case(
        "grown light in the dark",
        "The brake left the target in the dark, on the light side: "
        "keep the weight you had when the light went.",
        lines((STARTS, 52.0), (STARTS + EASE, 0.0)),
        lean=-1.0,
        reason=Reason.OFF_TARGET,
    ),
    Case(
        "let go before the tone",
        "The brake was let go in the dark: keep the weight on until the tone falls.",
        lines((0, 2.0)),
        lean=-1.0,
        reason=Reason.LET_GO,
    ),
)
