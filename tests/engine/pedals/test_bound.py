"""The binding of a rig: saved and read back, and refused if invalid."""

import json
import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.calibration import Calibration, Range
from engine.pedals.bound import Binding, BindingError, BoundAxis, BoundButton
from engine.pedals.identity import Identity

JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=4),
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=4), inner, max_size=3)
    ),
    max_leaves=6,
)
RANGES = st.builds(Range, st.floats(-1.0, -0.2), st.floats(0.2, 1.0))
DEVICE: dict[str, object] = {
    "guid": "0300",
    "name": "Pedals",
    "axes": 3,
    "ordinal": 0,
    "twins": 1,
}
WHOLE: dict[str, object] = {
    "device": DEVICE,
    "axis": 1,
    "rest": -1.0,
    "full": 1.0,
}
SHIFT: dict[str, object] = {"device": DEVICE, "button": 4}
PATHS = [
    (),
    ("shift",),
    ("brake",),
    *(("brake", key) for key in WHOLE),
    *(("brake", "device", key) for key in DEVICE),
]


@st.composite
def identities(draw: st.DrawFn, axes_least: int = 1) -> Identity:
    """Strategy for any identity of a device with so many axes or more."""
    twins = draw(st.integers(1, 4))
    return Identity(
        guid=draw(st.text("0123456789abcdef", min_size=28, max_size=28)),
        name=draw(st.text(max_size=20)),
        axes=draw(st.integers(axes_least, 16)),
        ordinal=draw(st.integers(0, twins - 1)),
        twins=twins,
    )


@st.composite
def bounds(draw: st.DrawFn) -> BoundAxis:
    """Strategy for any axis of any device."""
    device = draw(identities())
    return BoundAxis(device, draw(st.integers(0, device.axes - 1)), draw(RANGES))


BUTTONS = st.builds(BoundButton, identities(axes_least=0), st.integers(0, 99))
BINDINGS = st.builds(Binding, bounds(), bounds(), st.none() | bounds(), shift=st.none() | BUTTONS)


def changed(path: tuple[str, ...], value: object) -> Any:
    """Data of two pedals with the value at a path changed; an empty path changes all of it."""
    if not path:
        return value
    data = json.loads(json.dumps({"brake": WHOLE, "throttle": WHOLE}))
    place = data
    for key in path[:-1]:
        place = place[key]
    place[path[-1]] = value
    return data


def outcome(data: object) -> Binding | str:
    """Binding read from data, or the text of its refusal."""
    try:
        return Binding.from_data(data)
    except BindingError as refused:
        return str(refused)


@given(binding=BINDINGS)
def test_a_binding_saved_as_json_comes_back_as_it_was(binding: Binding) -> None:
    saved = json.dumps(binding.as_data())

    back = Binding.from_data(json.loads(saved))

    assert back == binding


@given(path=st.sampled_from(PATHS), value=JSON)
def test_any_data_gives_a_binding_of_that_data_or_is_refused_in_one_line(
    path: tuple[str, ...], value: object
) -> None:
    data = changed(path, value)

    read = outcome(data)

    if isinstance(read, Binding):
        assert read.as_data() == data
    else:
        assert read.isprintable()
        assert read.startswith("binding")
        assert ": expected " in read


@given(binding=BINDINGS, name=st.sampled_from(["brake", "throttle"]))
def test_a_binding_without_a_brake_or_a_throttle_is_refused(binding: Binding, name: str) -> None:
    data = binding.as_data()
    del data[name]

    with pytest.raises(BindingError):
        Binding.from_data(data)


def test_values_at_the_limits_are_accepted() -> None:
    device = DEVICE | {"axes": 1, "twins": 3, "ordinal": 2}
    data = {name: WHOLE | {"device": device, "axis": 0} for name in ("brake", "throttle", "clutch")}

    binding = Binding.from_data(data)

    assert binding.as_data() == data
    assert len(binding.pedals) == 3


@pytest.mark.parametrize(
    ("path", "value", "text"),
    [
        (
            (),
            None,
            "binding: expected an object of brake, throttle and perhaps clutch or shift, "
            "found None",
        ),
        (
            (),
            {"brake": WHOLE},
            "binding: expected an object of brake, throttle and perhaps clutch or shift, "
            "found an object of brake",
        ),
        (
            (),
            {},
            "binding: expected an object of brake, throttle and perhaps clutch or shift, "
            "found an object of nothing",
        ),
        (
            ("horn",),
            WHOLE,
            "binding: expected an object of brake, throttle and perhaps clutch or shift, "
            "found an object of brake, throttle, horn",
        ),
        (
            ("clutch",),
            {"axis": 1, "a\nb": 2},
            "binding.clutch: expected an object of device, axis, rest, full, "
            "found an object of axis, a\\nb",
        ),
        (
            ("shift",),
            {"device": DEVICE},
            "binding.shift: expected an object of device, button, found an object of device",
        ),
        (
            ("shift",),
            {"device": DEVICE, "button": -1},
            "binding.shift.button: expected a whole number of at least 0, found -1",
        ),
        (
            ("brake",),
            [1, 2],
            "binding.brake: expected an object of device, axis, rest, full, found [1, 2]",
        ),
        (
            ("brake", "device"),
            "a pedal",
            "binding.brake.device: expected an object of guid, name, axes, ordinal, twins, "
            "found 'a pedal'",
        ),
        (
            ("brake", "axis"),
            -1,
            "binding.brake.axis: expected a whole number from 0 to 2, found -1",
        ),
        (("brake", "axis"), 3, "binding.brake.axis: expected a whole number from 0 to 2, found 3"),
        (
            ("brake", "axis"),
            True,
            "binding.brake.axis: expected a whole number from 0 to 2, found True",
        ),
        (
            ("brake", "axis"),
            1.0,
            "binding.brake.axis: expected a whole number from 0 to 2, found 1.0",
        ),
        (
            ("throttle", "rest"),
            "0",
            "binding.throttle.rest: expected a number from -1 to 1, found '0'",
        ),
        (
            ("throttle", "rest"),
            math.nan,
            "binding.throttle.rest: expected a number from -1 to 1, found nan",
        ),
        (
            ("throttle", "full"),
            1.01,
            "binding.throttle.full: expected a number from -1 to 1, found 1.01",
        ),
        (
            ("throttle", "full"),
            -1.01,
            "binding.throttle.full: expected a number from -1 to 1, found -1.01",
        ),
        (
            ("throttle", "full"),
            False,
            "binding.throttle.full: expected a number from -1 to 1, found False",
        ),
        (
            ("throttle", "full"),
            -0.9,
            "binding.throttle: expected rest and full at least 0.2 apart, found -1 and -0.9",
        ),
        (("brake", "device", "guid"), 5, "binding.brake.device.guid: expected text, found 5"),
        (("brake", "device", "name"), None, "binding.brake.device.name: expected text, found None"),
        (
            ("brake", "device", "axes"),
            0,
            "binding.brake.device.axes: expected a whole number of at least 1, found 0",
        ),
        (
            ("brake", "device", "twins"),
            0,
            "binding.brake.device.twins: expected a whole number of at least 1, found 0",
        ),
        (
            ("brake", "device", "ordinal"),
            1,
            "binding.brake.device.ordinal: expected a whole number from 0 to 0, found 1",
        ),
        (
            ("brake", "device", "ordinal"),
            "x" * 100,
            "binding.brake.device.ordinal: expected a whole number from 0 to 0, "
            f"found '{'x' * 56}...",
        ),
    ],
)
def test_a_wrong_binding_is_refused_with_where_expected_and_found(
    path: tuple[str, ...], value: object, text: str
) -> None:
    data = changed(path, value)

    with pytest.raises(BindingError) as refused:
        Binding.from_data(data)

    assert str(refused.value) == text


def test_the_value_found_is_cut_only_beyond_60_characters() -> None:
    data = changed(("brake", "axis"), "x" * 58)

    with pytest.raises(BindingError) as refused:
        Binding.from_data(data)

    assert str(refused.value).endswith(f"found '{'x' * 58}'")


def test_changing_the_data_of_a_binding_leaves_the_binding_alone() -> None:
    binding = Binding.from_data({"brake": WHOLE, "throttle": WHOLE})

    binding.as_data()["brake"]["device"]["name"] = "another"

    assert binding.brake.device.name == "Pedals"


def test_the_calibration_of_a_binding_is_that_of_its_pedals() -> None:
    device = Identity("0300000000000000000000000000", "Pedals", 3, 0, 1)
    brake, throttle, clutch = Range(-1.0, 1.0), Range(1.0, -1.0), Range(0.0, 1.0)

    two = Binding(BoundAxis(device, 0, brake), BoundAxis(device, 1, throttle))
    three = Binding(
        BoundAxis(device, 0, brake), BoundAxis(device, 1, throttle), BoundAxis(device, 2, clutch)
    )

    assert two.calibration == Calibration(brake, throttle, None)
    assert three.calibration == Calibration(brake, throttle, clutch)
