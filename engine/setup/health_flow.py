"""`check_health`: leads the player through the health check of the pedals and tells the result."""

from __future__ import annotations

from collections.abc import Sequence

from drills.health.pedal import measure_health
from drills.level import Level
from engine.kit.flow import show
from engine.pedals.rig import Rig
from engine.setup.health_saved import keep_health, pedals_of
from engine.setup.health_screens import (
    BeforeHealth,
    CheckEnd,
    HealthChoice,
    HealthCourse,
    HealthFound,
)
from engine.setup.health_words import health_words
from engine.setup.saved_rigs import saved_binding
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History


def check_health(rig: Rig, stage: Stage, history: History, levels: Sequence[Level]) -> Flow[None]:
    """Check the health of the saved pedals, save it, and tell which levels ask for more.

    Raises StoreError.
    """
    note = ""
    while True:
        binding = saved_binding(history) if rig.bound else None
        before = BeforeHealth(possible=binding is not None, note=note)
        if (yield from show(before, rig, stage)) is HealthChoice.DONE or binding is None:
            return
        stage.speaker.prepare()
        raw = yield from show(HealthCourse(pedals_of(binding), stage.speaker), rig, stage)
        if isinstance(raw, CheckEnd):
            if raw is CheckEnd.LEFT:
                return
            note = raw.value
            continue
        healths, note = measure_health(raw), ""
        keep_health(history, binding, healths)
        found = HealthFound(health_words(healths, levels))
        if (yield from show(found, rig, stage)) is HealthChoice.DONE:
            return
