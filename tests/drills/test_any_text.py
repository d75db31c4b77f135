"""Whatever is in a text, it is read, or refused in one short line."""

from collections.abc import Callable

from hypothesis import example, given
from hypothesis import strategies as st

from drills.kinds import KINDS
from drills.level_file import parse_level
from drills.recording import Format, read_recording
from drills.refusal import Refusal
from drills.text import decoded
from tests.drills.test_level import BLIP, HOLD
from tests.drills.test_zone_mistakes import ZONE

ANYTHING = st.text(st.characters(exclude_categories=()))
LONG = st.sampled_from(["x", "\\u0000", "é", " ", "[", "{", "9", '"', "\u2028", "a."]).flatmap(
    lambda part: st.sampled_from([1, 50, 3000]).map(lambda times: part * times)
)
VALUES = st.one_of(
    st.sampled_from(["", "[]", "{}", "true", "nan", "-inf", "1e999", "0x" + "f" * 5000]),
    st.sampled_from(["[160, 120]", "[120, 160]", "400", "60", "0", "40"]),
    st.sampled_from(["9" * 5000, "[" * 2000 + "]" * 2000, "2024-05-17", "{ at = 1 }"]),
    ANYTHING.map(lambda text: f'"{text}"'),
    LONG.map(lambda text: f'"{text}"'),
    st.floats().map(str),
    st.integers().map(str),
)
KEYS = st.one_of(
    st.sampled_from(["id", "title", "purpose", "kind", "targets", "needs", "limits", "pass"]),
    st.sampled_from(["band", "limits.dip", "blip.least", "pass.of", "title.x", "foreperiod"]),
    st.sampled_from(["from", "to", "decel", "downforce", "ease", "shifts", "gears", "peak"]),
    st.sampled_from(["title" + ".a" * 3000, "x" * 3000, '"' + "y" * 3000 + '"', '"\\n"']),
    ANYTHING.map(lambda text: f'"{text}"'),
)
CELLS = st.one_of(
    st.sampled_from(["0", "1", "60", "0,5", "1e308", "-1e308", "9e99", "nan", "", " ", "1_0"]),
    st.sampled_from(['"', '"a', "x" * 140_000, "9" * 400, "\0", "\u2028", "\r", "\ud800"]),
    st.sampled_from(["0:01:02.5", ":", "9" * 400 + ":00", "50%", "%", "#", "[ms]", "s", "0-1"]),
    st.floats().map(repr),
    st.text(max_size=5),
)


@st.composite
def levels(draw: st.DrawFn) -> str:
    """A level with lines added, taken away and given other values."""
    lines = draw(st.sampled_from([BLIP, HOLD, ZONE])).splitlines()
    for _ in range(draw(st.integers(0, 3))):
        place = draw(st.integers(0, len(lines) - 1))
        old = lines[place].partition(" =")[0]
        key = draw(st.one_of(st.just(old), KEYS))
        lines[place : place + draw(st.integers(0, 1))] = [f"{key} = {draw(VALUES)}"]
    return "\n".join(lines)


@st.composite
def recordings(draw: st.DrawFn) -> str:
    """Rows of cells under a header, and perhaps over it."""
    mark = draw(st.sampled_from(",;\t"))
    header = draw(
        st.sampled_from(
            [
                ["time", "brake", "throttle"],
                ["# Time (ms)", "Brake [%]", "Throttle (0-1)"],
                ["time", "brake"],
                ["x" * 999],
            ]
        )
    )
    extra = draw(st.lists(CELLS, max_size=2))
    metadata = draw(st.lists(st.lists(CELLS, max_size=3), max_size=2))
    rows = draw(st.lists(st.lists(CELLS, min_size=2, max_size=4), max_size=5))
    return "\n".join(mark.join(row) for row in [*metadata, header + extra, *rows])


def said_of(read: Callable[[], object]) -> str:
    """What a text is refused with; "read" where it is not."""
    try:
        read()
    except Refusal as refused:
        return str(refused)
    return "read"


@given(st.one_of(ANYTHING, LONG, levels()))
@example("a = " + "[" * 2000)
@example("a = " + "9" * 5000)
@example(BLIP.replace("tolerance = 15", "tolerance = 0x" + "f" * 5000))
@example(BLIP.replace('title = "Mine"', "title" + ".a" * 3000 + " = 1"))
@example('"' + "k" * 5000 + '\\n" = 1' + BLIP)
def test_any_text_is_a_level_or_is_refused_in_one_short_line(text: str) -> None:
    said = said_of(lambda: parse_level(text, "mine.toml", KINDS))

    assert said.isprintable()
    assert 0 < len(said) < 300


@given(
    st.one_of(ANYTHING, LONG, recordings()),
    st.sampled_from([None, 1.0, 0.001]),
    st.sampled_from([None, 0.001, 1.0, 100.0, 1e6]),
    st.sampled_from([None, 0.001, 60.0, 1e6]),
)
@example("time,brake,throttle\n0,1e308,0\n1,1,0", 1.0, 0.001, None)
@example("time,brake,throttle\n-1e308,1,0\n1e308,1,0", 1.0, 100.0, None)
@example("time,brake,throttle\n0,1,0\n1e308,1,0\n0,1,0\n1e308,1,0\n0,1,0", 1.0, None, None)
@example("\n".join(["time,brake,throttle", "x" * 140_000]), 1.0, 100.0, None)
@example("," * 5000, 1.0, 100.0, None)
@example("\ud800", 1.0, 100.0, None)
@example("brake,throttle\n1,1\n1,1", None, None, 0.001)
def test_any_text_is_a_recording_or_is_refused_in_one_short_line(
    text: str, unit: float | None, full: float | None, rate: float | None
) -> None:
    form = Format(unit=unit, full=full, rate=rate)

    said = said_of(lambda: read_recording(text, form))

    assert said.isprintable()
    assert 0 < len(said) < 300


@given(
    st.one_of(
        st.binary(),
        st.tuples(recordings(), st.sampled_from(["utf-8-sig", "utf-16", "latin-1"])).map(
            lambda pair: pair[0].encode(pair[1], "replace")
        ),
    )
)
def test_any_bytes_are_a_recording_or_are_refused_in_one_short_line(raw: bytes) -> None:
    said = said_of(lambda: read_recording(decoded(raw), Format()))

    assert said.isprintable()
    assert 0 < len(said) < 300
