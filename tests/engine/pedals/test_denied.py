"""Joystick devices that the user may not read, in a folder laid out as a Linux system is."""

from pathlib import Path

from engine.pedals.denied import denied_devices
from tests.needs import closed_files
from tests.unprivileged import unprivileged

pytestmark = closed_files


def plug(root: Path, number: int, name: str, mode: int, *, joystick: bool = True) -> None:
    """Lay out the files of an input device; `mode` has the rights of its event node."""
    device = root / f"sys/class/input/event{number}"
    (device / "device").mkdir(parents=True)
    (device / "device/name").write_text(f"{name}\n", encoding="utf-8")
    (device / "dev").write_text(f"13:{64 + number}\n", encoding="utf-8")
    for folder in ("run/udev/data", "dev/input"):
        (root / folder).mkdir(parents=True, exist_ok=True)
    kind = "JOYSTICK" if joystick else "KEYBOARD"
    (root / f"run/udev/data/c13:{64 + number}").write_text(
        f"I:1\nE:ID_INPUT_{kind}=1\n", encoding="utf-8"
    )
    node = root / f"dev/input/event{number}"
    node.touch()
    node.chmod(mode)


def denied(root: Path) -> list[str]:
    """Names of the devices that somebody without rights of root may not read."""
    for folder in [root, *root.parents][:4]:
        folder.chmod(0o755)
    with unprivileged():
        return denied_devices(root)


def test_joysticks_whose_nodes_may_not_be_read_are_named(tmp_path: Path) -> None:
    plug(tmp_path, 3, "Readable", 0o644)
    plug(tmp_path, 5, "Wheel", 0)
    plug(tmp_path, 7, "Pedals\x1b[2J", 0)
    plug(tmp_path, 9, "Keyboard", 0, joystick=False)

    assert denied(tmp_path) == ["Wheel", "Pedals\\x1b[2J"]


def test_a_device_without_node_or_udev_entry_is_not_named(tmp_path: Path) -> None:
    plug(tmp_path, 3, "No node", 0)
    plug(tmp_path, 4, "No entry", 0)
    (tmp_path / "dev/input/event3").unlink()
    (tmp_path / "run/udev/data/c13:68").unlink()

    assert denied(tmp_path) == []


def test_a_system_without_such_files_denies_nothing(tmp_path: Path) -> None:
    assert denied_devices(tmp_path) == []
