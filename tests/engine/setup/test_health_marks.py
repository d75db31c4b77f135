"""Marks of levels in the lists of a game whose pedals are checked in the middle of it."""

from drills.health.pedal import PedalHealth
from drills.health.reports import Timing
from drills.trace import Pedal
from engine.ladder.level_list import LevelList
from engine.setup.health_saved import keep_health
from engine.setup.saved_rigs import saved_binding
from engine.stage.scene import Attended
from tests.engine.game.rigged import READ, Rigged
from tests.engine.kit.test_choices import shown
from tests.engine.pedals.joysticks import Pad
from tests.engine.walking import back


def test_levels_of_luck_are_marked_once_the_pedals_were_checked(game: Rigged, pad: Pad) -> None:
    timing = Timing(0.008, 0.009, 0.0, 0, 500)
    noisy = [
        PedalHealth(pedal, seen=True, step=0.02, rest=5.0, timing=timing)
        for pedal in (Pedal.BRAKE, Pedal.THROTTLE)
    ]
    marks: list[bool] = []

    def looks(screen: Attended) -> None:
        assert isinstance(screen, LevelList)
        marks.append(any("partly luck" in text.text for text in shown(screen).texts))
        back(screen)

    def checks(screen: Attended) -> None:
        binding = saved_binding(game.history)
        assert binding is not None
        keep_health(game.history, binding, noisy)
        back(screen)

    game.walk(
        READ,
        *game.set_up(pad),
        ("home", "Practise"),
        ("ladder", "stillness"),
        ("levels", looks),
        ("ladder", checks),
        ("home", "Practise"),
        ("ladder", "stillness"),
        ("levels", looks),
        ("ladder", back),
        ("home", "Leave"),
    )

    assert marks == [False, True]
