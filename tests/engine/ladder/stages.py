"""A ladder as long as the whole curriculum, made up, with any part of it passed."""

from collections.abc import Sequence

from drills.level import Level
from drills.trace import Pedal
from engine.ladder.ladder import LadderStage, ladder_stages
from engine.practice.passes import ALL_PEDALS, next_level
from tests.made import level

SIZES = {
    "stillness": 4,
    "first blip": 6,
    "quiet blip": 8,
    "runs": 6,
    "easing off": 5,
    "clutch": 2,
    "everything": 3,
}
"""count, levels of each stage."""
ASIDE = "clutch"
"""The stage that nothing else needs, and that needs a clutch."""
TWO = frozenset({Pedal.BRAKE, Pedal.THROTTLE})


def made_levels(*own: str) -> tuple[Level, ...]:
    """The levels of seven stages, each but a branch needing the one before; `own` are titles."""
    levels: list[Level] = []
    trunk: tuple[str, ...] = ()
    for stage, count in SIZES.items():
        before = trunk
        for number in range(1, count + 1):
            name = f"{stage.replace(' ', '-')}-{number}"
            pedals = tuple(Pedal) if stage == ASIDE else (Pedal.BRAKE, Pedal.THROTTLE)
            levels.append(
                level(
                    id=name,
                    title=f"{stage.capitalize()} {number}",
                    purpose="Keep the brake where it was while the throttle is blipped.",
                    stage=stage,
                    needs=before,
                    pedals=pedals,
                )
            )
            before = (name,)
        trunk = trunk if stage == ASIDE else before
    mine = [level(id=f"own-{number}", title=one, stage="") for number, one in enumerate(own)]
    return (*levels, *mine)


def ten_stages() -> tuple[Level, ...]:
    """Levels of ten stages, as many as the climb shows at once."""
    more = {"braking zones": 6, "by itself": 3}
    added = [
        level(id=f"{stage}-{number}", title=f"{stage} {number}", stage=stage)
        for stage, count in more.items()
        for number in range(1, count + 1)
    ]
    return (*made_levels(), *added, level(id="own-1", title="Three blips", stage=""))


def ids(levels: Sequence[Level]) -> frozenset[str]:
    """Their ids."""
    return frozenset(level.id for level in levels)


def climbed(
    levels: Sequence[Level],
    passed: int = 0,
    placed: int = 0,
    pedals: frozenset[str] = ALL_PEDALS,
) -> tuple[tuple[LadderStage, ...], Level]:
    """The stages after so many of the levels were placed and then passed, and the next level."""
    done, skipped = ids(levels[placed : placed + passed]), ids(levels[:placed])
    return ladder_stages(levels, done, skipped, pedals), next_level(levels, done | skipped, pedals)
