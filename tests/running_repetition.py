"""`RunningRepetition`: a repetition that fake pedals are fed to."""

from drills.calibration import UNIT
from drills.level import Level
from drills.phases import Phase
from drills.task import Task
from drills.trace import SECOND
from engine.drill.repetition_screen import RepetitionScreen
from engine.kit.base import Place
from engine.pedals.port import CalibratedPedals, Source
from engine.pedals.rig import Means
from engine.stage.headless import ManualClock
from tests.fakes import MILLISECOND, Audience, Lamp, a_stage
from tests.loudspeaker import Loudspeaker


class RunningRepetition:
    """Repetition on its screen, fed every millisecond from one source."""

    def __init__(self, level: Level, task: Task, source: Source, clock: ManualClock) -> None:
        self.audience = Audience()
        self.lamp = Lamp()
        stage = a_stage(self.audience, lamp=self.lamp)
        assert isinstance(stage.speaker, Loudspeaker)
        self.speaker = stage.speaker
        self.screen = RepetitionScreen(level, task, Place(1, 10), stage, clock())
        self.screen.on_means(Means(feet=source.is_feet and source.counts))
        self._pedals = CalibratedPedals(source, UNIT)
        self._clock = clock

    @property
    def entered(self) -> list[Phase]:
        """Phases so far, the first one included once the repetition has begun."""
        begun = [Phase.RELEASE] * len(self.audience.tasks)
        return begun + [transition.phase for transition in self.audience.transitions]

    def run(self, seconds: float) -> None:
        """Read the pedals for some seconds, or until the screen has an outcome."""
        until = self._clock() + round(seconds * SECOND)
        while self.screen.outcome is None and self._clock() < until:
            self._clock.advance(MILLISECOND)
            sample = self._pedals.sample()
            self.screen.on_sample(sample, self._clock())
