"""The loop at its end: the window is closed, or a signal asks the program to end."""

import pytest

from tests.engine.stage.test_loop import LOOP
from tests.scripted import printed

CLOSED = """
from drills.refusal import Refusal
from engine.stage.scene import Pace, Scene

class Noting(Events):
    def note(self, event, fields=None, at=None):
        if event in ("screen", "closed"):
            print(event, *(fields or {{}}).values())

clock = time.perf_counter_ns
window = Window(Shape((640, 360)), theme.GROUND, theme.THROTTLE, widgets.icon())
pygame.joystick.init()
events = Noting(None, clock)
rig = Rig(clock)
stage = Stage(window, Silence(), events)
asked = []

def by_mouse():
    pygame.event.post(pygame.event.Event(pygame.QUIT))

def by_signal():
    asked.append(True)

class Closed(Screen[str]):
    def __init__(self, name, closed=None, pace=Pace.STILL):
        super().__init__()
        self.name, self.closed, self.at = name, closed, pace
    @property
    def pace(self):
        return self.at
    def on_sample(self, sample, now):
        if self.outcome is None:
            {way}()
    def on_action(self, action):
        print("heard", action.value)
    def on_closing(self):
        print('closing', self.name)
        self.outcome = self.closed

def shown(screen):
    while screen.outcome is None:
        yield Scene(screen, rig, stage)
    print("stored", screen.outcome)

def flow():
{flow}

try:
    Loop(window, rig, events, lambda: bool(asked)).run(flow())
except Refusal as error:
    print("refused", error)
"""
BY_EVERY_WAY = pytest.mark.parametrize("way", ["by_mouse", "by_signal"])


def lines(way: str, *flow: str) -> list[str]:
    """What happens when a window is closed in a flow of some lines."""
    body = "\n".join(f"    {line}" for line in flow)
    return printed(LOOP + CLOSED.format(way=way, flow=body))


@BY_EVERY_WAY
@pytest.mark.parametrize("pace", ["STILL", "DARK"])
def test_what_a_screen_made_of_its_end_is_stored_and_the_next_one_is_not_shown(
    way: str, pace: str
) -> None:
    happened = lines(
        way,
        f"yield from shown(Closed('asked', 'left', Pace.{pace}))",
        "yield from shown(Closed('menu', 'left'))",
        "print('went on')",
    )

    assert happened == ["screen asked", "closing asked", "stored left", "closed"]


@BY_EVERY_WAY
def test_a_screen_that_makes_nothing_of_it_ends_the_flow_at_once(way: str) -> None:
    happened = lines(
        way,
        "try:",
        "    yield from shown(Closed('menu'))",
        "finally:",
        "    print('tidied')",
    )

    assert happened == ["screen menu", "closing menu", "tidied", "closed"]


@BY_EVERY_WAY
def test_a_flow_that_is_over_then_ends_well(way: str) -> None:
    happened = lines(way, "yield from shown(Closed('asked', 'left'))")

    assert happened == ["screen asked", "closing asked", "stored left", "closed"]


def test_a_flow_that_would_go_on_for_ever_is_closed() -> None:
    happened = lines(
        "by_signal",
        "for number in range(10**9):",
        "    yield from shown(Closed(f'asked {number}', 'left'))",
    )

    assert happened == ["screen asked 0", "closing asked 0", "stored left", "closed"]


def test_a_signal_before_the_first_screen_shows_none() -> None:
    happened = lines("by_signal", "by_signal()", "yield from shown(Closed('cautions'))")

    assert happened == ["closed"]


def test_nothing_is_heard_after_the_window_was_closed() -> None:
    key = "pygame.event.post(pygame.event.Event(pygame.KEYDOWN, key=pygame.K_RETURN))"

    happened = lines("by_mouse", "by_mouse()", key, "yield from shown(Closed('menu'))")

    assert happened == ["screen menu", "closing menu", "closed"]


def test_the_end_is_noted_too_where_the_flow_refuses_to_go_on() -> None:
    happened = lines(
        "by_mouse",
        "yield from shown(Closed('trouble', 'left'))",
        "raise Refusal('the disk is full')",
    )

    assert happened[-2:] == ["closed", "refused the disk is full"]
