"""The binding of a rig as plain data and back."""

import json

from hypothesis import given
from hypothesis import strategies as st

from engine.pedals.calibration import Calibration, Range
from engine.pedals.identity import Binding, BoundAxis, Identity

IDENTITIES = st.builds(
    Identity,
    guid=st.text("0123456789abcdef", min_size=28, max_size=28),
    name=st.text(max_size=20),
    axes=st.integers(1, 16),
    ordinal=st.integers(0, 3),
    twins=st.integers(1, 4),
)
RANGES = st.builds(Range, st.floats(-1.0, -0.2), st.floats(0.2, 1.0))
BOUNDS = st.builds(BoundAxis, IDENTITIES, st.integers(0, 15), RANGES)


@given(binding=st.builds(Binding, BOUNDS, BOUNDS, st.none() | BOUNDS))
def test_a_binding_saved_as_json_comes_back_as_it_was(binding: Binding) -> None:
    saved = json.dumps(binding.as_data())

    back = Binding.from_data(json.loads(saved))

    assert back == binding


def test_the_calibration_of_a_binding_is_that_of_its_pedals() -> None:
    device = Identity("0300000000000000000000000000", "Pedals", 3, 0, 1)
    brake, throttle, clutch = Range(-1.0, 1.0), Range(1.0, -1.0), Range(0.0, 1.0)

    two = Binding(BoundAxis(device, 0, brake), BoundAxis(device, 1, throttle))
    three = Binding(
        BoundAxis(device, 0, brake), BoundAxis(device, 1, throttle), BoundAxis(device, 2, clutch)
    )

    assert two.calibration == Calibration(brake, throttle, None)
    assert three.calibration == Calibration(brake, throttle, clutch)
