"""Sound of a verdict, which says the same as the sentence and the bubble of its reveal."""

from __future__ import annotations

from drills.deviation import Deviation, about_middle
from drills.kinds import run_words, shift_words
from drills.level import Level
from drills.score import WEIGHED, Reason, Verdict
from engine.drill.attempt import Attempt
from engine.drill.set_log import SetLog
from engine.practice.passes import reveals, sounds
from engine.stage.earcon import Earcon
from engine.stage.replay_wave import ear_wave
from engine.stage.speaker import Speaker
from engine.stage.waves import Wave

LATE = frozenset({Reason.LATE.value, "reaction", "release_start", "clutch_down", "clutch_up"})
"""Topics of sentences that all say of something that it came late."""


def sound_verdict(attempt: Attempt, log: SetLog, speaker: Speaker) -> None:
    """Sound the verdict on the newest repetition of `log`, if its level tells it at once.

    With `Speaker.ear` the brake of its judged stretch is heard first, where a reveal shows it. A
    repetition that the player left is silent, as it has no reveal.
    """
    if attempt.record is None or attempt.left or not sounds(log.level):
        return
    verdict, after = attempt.record.verdict, None
    is_shown = not verdict.void and reveals(log.level, verdict.clean)
    if speaker.ear and attempt.picture is not None and is_shown:
        after = _heard(attempt.picture)
    if verdict.clean:
        speaker.step(log.clean_streak(attempt.record.at), after)
    else:
        speaker.play(earcon_of(attempt.level, verdict), after)


def earcon_of(level: Level, verdict: Verdict) -> Earcon:
    """Earcon of a verdict that is not clean, by the topic of its sentence and by its bubble."""
    if verdict.void:
        return Earcon.VOID
    topic = level.kind.remark(level, verdict).topic
    if level.is_staircase and verdict.reason in WEIGHED:
        # Its topic is only whether it was inside.
        topic = verdict.worst
    if _is_late(topic, verdict):
        return Earcon.LATE
    lean = level.kind.lean(level, verdict)
    if not lean or topic == Reason.NOT_PRESSED:
        return Earcon.MISSED
    return Earcon.DIP if lean < 0 else Earcon.SURGE


def _is_late(topic: str, verdict: Verdict) -> bool:
    """Whether the sentence on a topic says that something came late."""
    match topic:
        case "lateness" | "brake_on" | "off_at":
            return verdict.amount(topic) > 0
        case "settle":
            return verdict.measures.get(topic) is not None
        case "shift_at" | Reason.SHIFT_LAST:
            return shift_words.is_late(verdict)
        case "spacing_error":
            return run_words.spacing(verdict) in run_words.LATE_SPACING
    return topic in LATE


def _heard(picture: Deviation) -> Wave | None:
    """Wave of the deviation drawn in the stretch that was judged; None where it has no length."""
    drawn = about_middle(picture)
    during = [bound.during for bound in picture.bounds] or [picture.span]
    begins, ends = min(begin for begin, _ in during), max(end for _, end in during)
    judged = (picture.time >= begins) & (picture.time <= ends)
    if judged.sum() < 2:
        return None
    return ear_wave(drawn.time[judged], drawn.deviation[judged])
