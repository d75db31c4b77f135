"""The way through the game: which screen follows which, as plain generators.

A flow yields screens and is answered with their outcomes; no screen knows another.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Generator
from statistics import median

from drills.deviation import Deviation, deviation_of
from drills.kinds import KINDS
from drills.kinds.base import Task
from drills.level import Level
from drills.repetition import Repetition
from drills.score import Reason
from engine.flow.judging import as_event, conclude
from engine.pedals.binding import Binding, BindingError, BoundAxis
from engine.pedals.calibration import Range
from engine.pedals.identity import Axis, Missing
from engine.pedals.mouse import MOUSE_TRAVEL, MousePedals
from engine.pedals.port import CalibratedPedals
from engine.pedals.sdl import SdlPedals
from engine.practice.progress import next_level, reveals
from engine.screens.base import Screen
from engine.screens.cautions import Cautions
from engine.screens.finding import FindPedal, PedalsFound
from engine.screens.home import Go, Home, Standing
from engine.screens.level_list import Levels
from engine.screens.nopedals import Instead, NoPedals, Unplugged
from engine.screens.repeating import Repeating
from engine.screens.reveal import After, Reveal
from engine.screens.setend import SetEnd, Tally, Then
from engine.stage.stage import Game
from engine.store import Record

Way = Generator[Screen, object, None]
Finding = Generator[Screen, object, bool]

BINDING = "binding"
"""Setting: where the pedals are and what their ends read."""
CAUTIONS_READ = "cautions read"
"""Setting: whether the cautions have been read."""
SOUND = "sound"
"""Setting: whether sound is wanted."""
FAINT = 5
"""count of earlier repetitions shown faintly at the reveal."""


def play(game: Game, watch_demo: Callable[[Game], Way]) -> Way:
    """The whole game, from the first start to leaving it; `watch_demo` shows the demo."""
    game.devices.rescan()
    if not game.history.setting(CAUTIONS_READ):
        if (yield Cautions()) is not True:
            return
        game.history.keep_setting(CAUTIONS_READ, True)
    while True:
        if game.feet is None and not (yield from find_feet(game, watch_demo)):
            return
        chosen = yield Home(standing(game), _played_with(game), sound=sound_wanted(game))
        match chosen:
            case Level():
                yield from practise_on(game, chosen)
            case Go.LEVELS:
                level = yield Levels(game.levels, game.history.passed(), game.pedals)
                if isinstance(level, Level):
                    yield from practise_on(game, level)
            case Go.PEDALS:
                yield from set_up(game)
            case Go.SOUND:
                game.history.keep_setting(SOUND, not sound_wanted(game))
                game.sound = None
            case _:
                return


def find_feet(game: Game, watch_demo: Callable[[Game], Way]) -> Finding:
    """Find something to play with; whether there is any."""
    while True:
        binding = saved_binding(game)
        trouble: Missing | None = Missing.AMBIGUOUS
        if binding is not None:
            pedals = SdlPedals(game.devices, binding, game.clock)
            trouble = pedals.connect()
            if trouble is None:
                game.feet = CalibratedPedals(pedals, binding.calibration)
                return True
        plugged = len(game.devices.plugged)
        if plugged and trouble is Missing.AMBIGUOUS and (yield from set_up(game)):
            return True
        instead = yield NoPedals(saved=binding is not None, plugged=plugged)
        match instead:
            case Instead.MOUSE:
                mouse = MousePedals(game.window.pointer, game.clock)
                game.feet = CalibratedPedals(mouse, MOUSE_TRAVEL)
                return True
            case Instead.DEMO:
                yield from watch_demo(game)
            case Instead.BIND:
                if (yield from set_up(game)):
                    return True
            case Instead.PLUGGED:
                continue
            case _:
                return False


def set_up(game: Game) -> Finding:
    """Bind and calibrate the pedals; whether that was gone through with."""
    game.devices.rescan()
    while True:
        found: dict[str, tuple[Axis, Range]] = {}
        for pedal in ("brake", "throttle", "clutch"):
            taken = dict(found.values())
            outcome = yield FindPedal(pedal, game.devices.values, taken, optional=pedal == "clutch")
            if outcome is False:
                game.reconnect()
                return False
            if isinstance(outcome, tuple):
                found[pedal] = outcome
        bounds = {
            pedal: BoundAxis(device, axis.axis, ends)
            for pedal, (axis, ends) in found.items()
            if (device := game.devices.identity(axis.device)) is not None
        }
        if len(bounds) < len(found):
            continue
        lines = {
            pedal: f"axis {bound.axis + 1} of {bound.device.name}"
            for pedal, bound in bounds.items()
        }
        binding = Binding(bounds["brake"], bounds["throttle"], bounds.get("clutch"))
        pedals = SdlPedals(game.devices, binding, game.clock)
        before, game.feet = game.feet, CalibratedPedals(pedals, binding.calibration)
        pedals.connect()
        if (yield PedalsFound(lines)) is True:
            game.history.keep_setting(BINDING, binding.as_data())
            return True
        game.feet = before
        game.devices.rescan()


def practise_on(game: Game, level: Level) -> Way:
    """Sets of levels one after another, until the player goes home."""
    following: object = level
    while isinstance(following, Level):
        following = yield from practise(game, following, following.repetitions)


def practise(game: Game, level: Level, repetitions: int) -> Generator[Screen, object, object]:
    """One set; a level to go on with, or Then.HOME."""
    if game.sound is None:
        game.sound = game.open_sound(sound_wanted(game))
    kept: list[Record] = []
    before: deque[Deviation] = deque(maxlen=FAINT)
    while (number := 1 + sum(not record.verdict.void for record in kept)) <= repetitions:
        place = (number, repetitions)
        task = KINDS[level.kind].task(
            level, level.targets[(number - 1) % len(level.targets)], game.rng
        )
        ended = yield Repeating(level, task, place, game.entered)
        if not isinstance(ended, Repetition) or ended.void is Reason.LEFT:
            break
        record = _keep(game, level, task, ended)
        kept.append(record)
        if record.verdict.reason is Reason.UNPLUGGED:
            if not (yield from _wait_for_pedals(game)):
                break
            continue
        now = _picture(task, ended, record)
        if record.verdict.void or reveals(level, number, record.verdict.clean):
            outcome = yield Reveal(level, record, (now, tuple(before)), place)
            if outcome is After.LEAVE:
                break
        if now is not None:
            before.append(now)
    if not kept:
        return Then.HOME
    return (yield SetEnd(level, _tally(game, level, kept), _following(game, level)))


def saved_binding(game: Game) -> Binding | None:
    """The pedals that were set up before; None where there are none or they make no sense."""
    data = game.history.setting(BINDING)
    try:
        return None if data is None else Binding.from_data(data)
    except BindingError:
        return None


def sound_wanted(game: Game) -> bool:
    """Whether sound is wanted: until it is turned off, yes."""
    return game.history.setting(SOUND) is not False


def standing(game: Game) -> Standing:
    """Where the player stands today."""
    now = game.history.standing(game.now().date())
    done = game.history.passed() & {level.id for level in game.levels}
    return Standing(
        today=now.today,
        clean_today=now.clean_today,
        clean_row=now.clean_row,
        days_row=now.days_row,
        passed=len(done),
        levels=len(game.levels),
        next=next_level(game.levels, done, game.pedals),
    )


def _played_with(game: Game) -> str:
    if game.feet is None or not isinstance(game.feet.source, SdlPedals):
        return "playing with the mouse"
    return "ready" if game.feet.sample() is not None else "unplugged"


def _keep(game: Game, level: Level, task: Task, ended: Repetition) -> Record:
    """Judge a repetition, commit it, and tell and sound the verdict."""
    assert game.feet is not None
    record = conclude(level, task, ended, game.feet.source.name, game.now())
    number = game.history.add(record)
    game.events.note("verdict", as_event(number, record))
    if record.verdict.clean and game.sound is not None:
        game.sound.step(game.history.standing(game.now().date()).clean_row)
    return record


def _picture(task: Task, ended: Repetition, record: Record) -> Deviation | None:
    performance = ended.performance()
    if performance is None or record.verdict.void:
        return None
    return deviation_of(task, performance, record.verdict)


def _wait_for_pedals(game: Game) -> Finding:
    """Wait until the pedals are back; False where the player would rather leave."""
    while game.feet is not None and game.feet.sample() is None:
        if (yield Unplugged()) is not True:
            return False
    return True


def _tally(game: Game, level: Level, kept: list[Record]) -> Tally:
    standing = game.history.level_standing(level.id)
    verdicts = [record.verdict for record in kept]
    scores = [verdict.score for verdict in verdicts if verdict.score is not None]
    return Tally(
        counted=sum(not verdict.void for verdict in verdicts),
        clean=sum(verdict.clean for verdict in verdicts),
        void=sum(verdict.void for verdict in verdicts),
        score=median(scores) if scores else None,
        clean_row=game.history.standing(game.now().date()).clean_row,
        latest_clean=sum(standing.latest[-level.rule.of :]),
        passed=standing.passed,
    )


def _following(game: Game, level: Level) -> Level:
    done = game.history.passed()
    return next_level(game.levels, done, game.pedals) if level.id in done else level
