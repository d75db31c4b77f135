"""Writer of one recording in any of the forms in which recordings are found."""

from dataclasses import dataclass

from hypothesis import strategies as st


@dataclass(frozen=True)
class Form:
    """One way to write a recording."""

    delimiter: str
    """Character between two cells."""
    point: str
    """Decimal point or comma."""
    time: str
    """Unit of the times: "s", "ms" or "clock"."""
    units: str
    """Where units stand: "none", "header" or "row"."""
    brackets: tuple[str, str]
    """What stands around a unit in the header."""
    is_percent: bool
    """Whether % signs stand behind the pedals."""
    is_share: bool
    """Whether pedals are written from 0 to 1."""
    holds: bool
    """Whether a cell is empty whose value is that of the row before."""
    is_quoted: bool
    """Whether each cell is in quotes."""
    metadata: tuple[str, ...]
    """Lines before the header."""
    comment: str
    """Line between the first two rows; empty for none."""
    end: str
    """What ends a line."""
    encoding: str
    """Encoding of the file, with its byte order mark if it has one."""


QUOTES = (
    "metadata",
    "a, b; c",
    '"quoted, and so on",1',
    "Rate;50",
    "",
    "# a comment",
    "time,brake",
)
FORMS = st.builds(
    Form,
    delimiter=st.sampled_from(",;\t"),
    point=st.sampled_from(".,"),
    time=st.sampled_from(["s", "ms", "clock"]),
    units=st.sampled_from(["none", "header", "row"]),
    brackets=st.sampled_from([(" [", "]"), (" (", ")"), ("[", "]"), (" ", "")]),
    is_percent=st.booleans(),
    is_share=st.booleans(),
    holds=st.booleans(),
    is_quoted=st.booleans(),
    metadata=st.lists(st.sampled_from(QUOTES), max_size=49).map(tuple),
    comment=st.sampled_from(["", "# a pause, of 3", '#"']),
    end=st.sampled_from(["\n", "\r\n", "\r"]),
    encoding=st.sampled_from(["utf-8", "utf-8-sig", "utf-16"]),
)


def written(samples: list[tuple[int, int, int]], form: Form) -> tuple[bytes, float | None]:
    """Samples (time in ms, brake and throttle in tenths of a %) as a file, and its unit in s.

    The unit is None if the file tells it.
    """
    told = form.units != "none"
    pedal = "0-1" if form.is_share and not form.is_percent else "%"
    time = {"s": "s", "ms": "ms", "clock": "h:mm:ss" if form.units == "header" else "s"}[form.time]
    names, units = ("Time", "Brake", "Throttle"), (time, pedal, pedal)
    opening, closing = form.brackets if time != "h:mm:ss" and pedal == "%" else (" [", "]")
    header = [
        f"{name}{opening}{unit}{closing}" if form.units == "header" else name
        for name, unit in zip(names, units, strict=True)
    ]
    rows = [header] + [list(units)] * (form.units == "row")
    before: list[str] = ["", ""]
    for at, *tenths in samples:
        pedals = [_pedal(value, form, pedal == "0-1") for value in tenths]
        shown = [
            "" if form.holds and text == last else text
            for text, last in zip(pedals, before, strict=True)
        ]
        rows.append([_time(at, form.time), *shown])
        before = pedals
    is_quoted = form.is_quoted or (form.point == form.delimiter)
    lines = [
        form.delimiter.join(
            f'"{cell.replace(".", form.point)}"' if is_quoted else cell.replace(".", form.point)
            for cell in row
        )
        for row in rows
    ]
    lines[-1:-1] = [form.comment] * bool(form.comment)
    text = form.end.join([*form.metadata, *lines, ""])
    return text.encode(form.encoding), 0.001 if form.time == "ms" and not told else None


def _time(ms: int, unit: str) -> str:
    if unit == "ms":
        return str(ms)
    if unit == "s":
        return f"{ms / 1000:.3f}"
    minutes, rest = divmod(ms, 60_000)
    return f"{minutes // 60}:{minutes % 60:02}:{rest // 1000:02}.{rest % 1000:03}"


def _pedal(tenths: int, form: Form, is_share: bool) -> str:
    if is_share:
        return f"{tenths / 1000:.3f}"
    return f"{tenths / 10:.1f}" + " %" * form.is_percent
