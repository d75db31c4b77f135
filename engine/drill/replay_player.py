"""`ReplayPlayer`: plays the course of a repetition over time, with its sound."""

from __future__ import annotations

from drills.trace import SECOND
from engine.drill.replay_course import PedalCourse
from engine.stage.replay_wave import replay_wave
from engine.stage.speaker import Speaker
from engine.stage.waves import Wave


class ReplayPlayer:
    """Playhead of one replay at a time; time comes from the readings of the pedals."""

    def __init__(self, speaker: Speaker) -> None:
        self._speaker = speaker
        self._wave: Wave | None = None
        self._sounds = False
        self._began: int | None = None
        self._at = 0.0
        self.course: PedalCourse | None = None
        """What is played, or has been to its end; None if nothing is."""

    @property
    def at(self) -> float:
        """Place of the playhead, in s on the axis of the picture."""
        return self._at

    @property
    def is_over(self) -> bool:
        """Whether it has played to its end."""
        return self.course is not None and self._at >= self.course.ends

    @property
    def is_playing(self) -> bool:
        """Whether the playhead is on its way."""
        return self.course is not None and not self.is_over

    def start(self, course: PedalCourse) -> None:
        """Make the sound of a replay, which begins at the next reading."""
        self.stop()
        self.course, self._at = course, course.begins
        seen = course.picture
        throttle = None if seen.throttle is None else course.throttle
        self._wave = replay_wave(seen.time, seen.deviation, throttle, course.speed)

    def on_time(self, now: int) -> None:
        """Begin the sound, or move the playhead to where it is at `now` (ns).

        It takes a moment until the sound is on its way, so the playhead begins a reading later.
        """
        course = self.course
        if course is None:
            return
        if self._wave is not None:
            self._sounds = self._speaker.play_curve(self._wave)
            self._wave = None
            return
        if self._began is None:
            self._began = now
        self._at = min(course.begins + (now - self._began) / SECOND * course.speed, course.ends)

    def stop(self) -> None:
        """End the replay and its sound."""
        if self._sounds:
            self._speaker.end_curve()
        self.course, self._wave, self._began, self._sounds = None, None, None, False
