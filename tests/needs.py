"""What some tests need of the system they run on; where it is missing, they are left out."""

import importlib.util
import os
import shutil
import sys
import tempfile
from pathlib import Path

import pytest


def _needs(there: bool, what: str) -> pytest.MarkDecorator:
    return pytest.mark.skipif(not there, reason=f"needs {what}")


def _links_can_be_made() -> bool:
    with tempfile.TemporaryDirectory() as folder:
        try:
            (Path(folder) / "link").symlink_to(folder)
        except (OSError, NotImplementedError):
            return False
    return True


closed_files = _needs(hasattr(os, "geteuid"), "files and folders that can be closed to a user")
display_to_miss = _needs(sys.platform.startswith("linux"), "a system whose windows need a display")
endless_file = _needs(Path("/dev/zero").exists(), "a file that never ends")
file_size_limit = _needs(
    importlib.util.find_spec("resource") is not None,
    "a limit on the size of a process's files, which stands for a full disk",
)
full_device = _needs(Path("/dev/full").exists(), "a device that is always full")
links = _needs(_links_can_be_made(), "symbolic links")
named_pipe = _needs(hasattr(os, "mkfifo"), "a named pipe in the file system")
names_of_bytes = _needs(os.name == "posix", "file names that are bytes")
peak_memory = _needs(Path("/proc/self/status").exists(), "the peak of a process's memory")
shell = _needs(os.name == "posix" and shutil.which("sh") is not None, "a POSIX shell")
short_names = _needs(hasattr(os, "pathconf"), "a longest file name that the system tells")
