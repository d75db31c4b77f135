"""What some tests need of the system they run on; where it is missing, they are left out."""

import importlib.util
import os
import sys
from pathlib import Path

import pytest

_POSIX = os.name == "posix"


def _under_wine() -> bool:
    """Whether this Windows is Wine, which carries out Windows programs on Linux."""
    if sys.platform != "win32":
        return False
    import ctypes

    return hasattr(ctypes.windll.ntdll, "wine_get_version")


def _needs(there: bool, what: str) -> pytest.MarkDecorator:
    return pytest.mark.skipif(not there, reason=f"needs {what}")


closed_files = _needs(_POSIX, "files and folders that can be closed to a user")
display_to_miss = _needs(sys.platform.startswith("linux"), "a system whose windows need a display")
endless_file = _needs(_POSIX and Path("/dev/zero").exists(), "a file that never ends")
file_size_limit = _needs(
    importlib.util.find_spec("resource") is not None,
    "a limit on the size of a process's files, which stands for a full disk",
)
full_device = _needs(_POSIX and Path("/dev/full").exists(), "a device that is always full")
links = _needs(_POSIX, "symbolic links that any user may make")
moving_open_files = _needs(_POSIX, "files that can be moved while they are open")
named_pipe = _needs(hasattr(os, "mkfifo"), "a named pipe in the file system")
names_of_bytes = _needs(_POSIX, "file names that are bytes")
peak_memory = _needs(
    _POSIX and Path("/proc/self/status").exists(), "the peak of a process's memory"
)
process_pools = _needs(not _under_wine(), "process pools, which hang under Wine, without us too")
shell = _needs(_POSIX, "a POSIX shell")
signals = _needs(_POSIX, "signals that a process can answer, from another one too")
short_names = _needs(_POSIX, "a system that says when a name is too long")
