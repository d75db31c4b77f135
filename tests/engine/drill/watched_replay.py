"""`Watched`: a reveal with replays that is sat through, on a clock that the test moves."""

from collections.abc import Callable

from drills.trace import nanoseconds
from engine.drill.replays import Best
from engine.kit.looks import Look
from engine.pedals.rig import Means
from tests.engine.drill.replaying import course_of, replayed, sit
from tests.engine.shipped_played import BY_ID, shipped_repetitions
from tests.loudspeaker import Loudspeaker

FIRST = "blip-1-first"
MAIN, OWN, BEST, FIGURES = Look.MAIN, Look.OWN, Look.BEST, Look.FIGURES
REPLAY = 9.0
"""Time in which a replay of one blip ends, in s: two seconds at quarter speed, and a bit."""


def a_best() -> Best:
    """A clean repetition, as the best of its level."""
    [clean] = shipped_repetitions(FIRST, 0.95, 3, 1)
    return Best(course_of(clean), "Your best, 12 May")


class Watched:
    """Reveal of a repetition with replays, opened with both pedals let go."""

    def __init__(self, best: Callable[[], Best] | None = a_best, name: str = FIRST) -> None:
        self.speaker = Loudspeaker()
        [shown] = shipped_repetitions(name, 0.05, 7, 1)
        self.course = course_of(shown)
        self.screen = replayed(BY_ID[name], shown, best, self.speaker)
        self.screen.on_means(Means(feet=True))
        self.curve = f"curve {self.course.lasts:.1f}"
        """What the speaker records of its replay."""
        self.now = nanoseconds(5.0)

    def sit(self, seconds: float, throttle: float | None = 0.0) -> Look:
        """Let time pass with the throttle at a value; returns what is shown then."""
        self.now = sit(self.screen, self.now, seconds, throttle)
        return self.screen.looks.now
