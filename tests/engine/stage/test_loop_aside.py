"""The loop and a screen shown aside: in the middle of another one, and as the window closes."""

from tests.engine.stage.test_loop import LOOP
from tests.scripted import printed

SCRIPT = """
from drills.refusal import Refusal
from engine.stage.scene import Scene

clock = time.perf_counter_ns
window = Window(Shape((640, 360)), theme.GROUND, theme.THROTTLE, widgets.icon())
pygame.joystick.init()
class Telling(Events):
    def note(self, event, fields=None, at=None):
        if event in ("screen", "drawn", "closed"):
            print(event, (fields or {}).get("name", ""))
events = Telling(None, clock)
rig, stage = Rig(clock), Stage(window, Silence(), events)
loop = Loop(window, rig, events)

class Ending(Screen[str]):
    def __init__(self, name, does=None):
        super().__init__()
        self.name, self.does, self.painted = name, does, 0
    def paint(self, canvas, press):
        self.painted += 1
    def on_sample(self, sample, now):
        if self.painted == 0:
            return
        if self.does is None:
            self.outcome = f"{self.name} is over"
        else:
            does, self.does, self.painted = self.does, None, 0
            does()

def shown(screen):
    while screen.outcome is None:
        yield Scene(screen, rig, stage)

def aside(name, does=None):
    def work():
        print("aside:", loop.run_aside(Scene(Ending(name, does), rig, stage)))
    return work

def fail():
    raise Refusal("no room")

def close():
    pygame.event.post(pygame.event.Event(pygame.QUIT))
"""

AMID = """
def flow():
    yield from shown(Ending("outer", aside("inner")))
    aside("between")()
    try:
        yield from shown(Ending("failing", fail))
    except Refusal as error:
        print("flow:", error)
    yield from shown(Ending("last"))
loop.run(flow())
"""

CLOSING = """
def flow():
    aside("first", close)()
    aside("second")()
    print("the flow goes on")
    yield from shown(Ending("third"))
    print("never")
loop.run(flow())
"""


def test_a_screen_aside_returns_its_outcome_and_the_one_around_it_is_drawn_again() -> None:
    lines = printed(LOOP + SCRIPT + AMID)

    assert lines == [
        *("screen outer", "drawn outer"),
        *("screen inner", "drawn inner", "aside: inner is over"),
        # The one around it ends only once it was painted again.
        *("screen between", "drawn between", "aside: between is over"),
        # An error that a screen raises is raised in its flow, which goes on.
        *("screen failing", "drawn failing", "flow: no room"),
        *("screen last", "drawn last"),
        "closed ",
    ]


def test_a_window_closed_aside_lets_the_flow_go_on_to_its_next_screen_and_shows_no_more() -> None:
    lines = printed(LOOP + SCRIPT + CLOSING)

    assert lines == [
        *("screen first", "drawn first", "aside: None"),
        "aside: None",
        "the flow goes on",
        "closed ",
    ]
