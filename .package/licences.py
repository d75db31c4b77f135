"""Licence texts of everything that is in the folder of the programs."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Iterator
from importlib.metadata import PackageNotFoundError, distribution, packages_distributions
from pathlib import Path

TOP = Path(__file__).resolve().parents[1]
PACKAGES = ("font_source_sans_pro", "numpy", "platformdirs", "pygame")
"""Packages inside, by the name they are imported by; `pygame` comes from either of its builds."""
FREEZER = "pyinstaller"
"""Distribution whose start-up code is in each program."""
LENDERS = {"pysdl2-dll": "SDL and its libraries", "pillow": "picture and font libraries"}
"""Distributions that carry the texts of libraries which the wheels of pygame bring without them,
each with the name of the folder its texts go into."""
TEXTS = ("authors", "copying", "lgpl", "licence", "license", "notice", "readme-sdl")
"""What the name of a file with a licence begins with, in small letters."""
LIBRARIES = {
    **dict.fromkeys(("sdl2", "sdl2_image", "sdl2_mixer", "sdl2_ttf", "z", "zlib1"), "zlib"),
    **dict.fromkeys(("x11", "xau", "xdmcp", "xcb", "ffi", "portmidi", "xmp", "expat"), "MIT"),
    **dict.fromkeys(("brotlicommon", "brotlidec", "harfbuzz"), "MIT"),
    **dict.fromkeys(("flac", "ogg", "opus", "opusfile", "wavpack"), "BSD, 3 clauses"),
    **dict.fromkeys(("vorbis", "vorbisenc", "vorbisfile"), "BSD, 3 clauses"),
    **dict.fromkeys(("webp", "webpdemux", "sharpyuv", "uuid", "cap"), "BSD, 3 clauses"),
    **dict.fromkeys(("scipy_openblas", "scipy_openblas64_", "pcre", "pcre2"), "BSD, 3 clauses"),
    **dict.fromkeys(("bsd", "md", "lz4"), "BSD, 2 or 3 clauses"),
    **dict.fromkeys(("asound", "attr", "fluidsynth", "glib", "gthread", "mpg123"), "LGPL 2.1"),
    **dict.fromkeys(("pulse", "pulsecommon", "sndfile", "systemd", "gme"), "LGPL 2.1"),
    **dict.fromkeys(("gcrypt", "gpg-error"), "LGPL 2.1"),
    **dict.fromkeys(("dw", "elf"), "LGPL 3 or GPL 2"),
    **dict.fromkeys(("gcc_s", "gomp", "gfortran", "stdc++"), "GPL 3 with the exception of GCC"),
    "quadmath": "LGPL 2.1",
    "dbus": "Academic Free Licence 2.1 or GPL 2",
    **dict.fromkeys(("lzma", "modplug", "selinux", "sqlite3"), "public domain"),
    "bz2": "bzip2",
    "freetype": "FreeType",
    "jpeg": "IJG and BSD: based in part on the work of the Independent JPEG Group",
    "png": "libpng",
    "tiff": "libtiff",
    "python": "PSF",
    **dict.fromkeys(("msvcp", "vcruntime"), "Visual C++ runtime, redistributable"),
}
"""Licences of shared libraries, by the name of the file without `lib` and its version."""
UNKNOWN = "not known: ask its project"


class LicenceError(Exception):
    """A licence that cannot be found. The message is one line."""


def gather(program: Path, folder: Path) -> list[str]:
    """Copy the texts for a folder of programs into another; list its libraries in there too.

    Returns the names of the shared libraries whose licence is not known. Raises LicenceError.
    """
    named = packages_distributions()
    providers = {one for package in PACKAGES for one in named.get(package, ())}
    _copy([TOP / "LICENSE"], folder / "stillfoot")
    _copy([_of_python()], folder / "Python")
    for name in sorted({*providers, FREEZER}):
        _copy(_of_distribution(name), folder / name)
    for name, inside in LENDERS.items():
        _copy(_of_distribution(name), folder / inside)
    libraries = {path.name: licence_of(path.name) for path in program.rglob("*") if _shared(path)}
    lines = [f"{name:60}  {licence}\n" for name, licence in sorted(libraries.items())]
    head = "Shared libraries in the folder, and the licence of each.\n\n"
    (folder / "libraries.txt").write_text(head + "".join(lines), encoding="utf-8", newline="\n")
    return sorted(name for name, licence in libraries.items() if licence == UNKNOWN)


def licence_of(name: str) -> str:
    """Licence of a shared library, by the name of its file."""
    short = name.lower().removeprefix("lib")
    fitting = [
        known
        for known in LIBRARIES
        if short.startswith(known) and not short[len(known) : len(known) + 1].isalpha()
    ]
    return LIBRARIES[max(fitting, key=len)] if fitting else UNKNOWN


def _shared(path: Path) -> bool:
    """Whether a file is a shared library that Python does not import itself."""
    name = path.name
    if path.is_symlink() or "cpython" in name or "abi3" in name:
        return False
    return path.suffix in (".dll", ".dylib") or ".so" in path.suffixes


def _of_python() -> Path:
    """Licence of the Python that is running."""
    library = Path(os.__file__).resolve().parent
    version = f"python{sys.version_info.major}.{sys.version_info.minor}"
    system = Path("/usr/share/doc") / version / "copyright"
    folders = [Path(sys.base_prefix), library, library.parent]
    places = [folder / name for folder in folders for name in ("LICENSE.txt", "LICENSE")]
    for place in (*places, system):
        if place.is_file():
            return place
    raise LicenceError(f"licence of Python: expected a text in {sys.base_prefix}, found none")


def _of_distribution(name: str) -> Iterator[Path]:
    """Licences that an installed distribution carries. Raises LicenceError if it has none."""
    try:
        files = distribution(name).files or []
    except PackageNotFoundError as error:
        raise LicenceError(f"licence of {name}: expected it installed, found it missing") from error
    texts = [one for one in files if one.name.lower().startswith(TEXTS)]
    texts = [one for one in texts if one.suffix not in (".py", ".pyc")]
    if not texts:
        raise LicenceError(f"licence of {name}: expected a text in the package, found none")
    return (Path(str(one.locate())) for one in texts)


def _copy(texts: Iterator[Path] | list[Path], folder: Path) -> None:
    """Copy texts into a folder; one whose name is taken gets the name of its own folder too."""
    folder.mkdir(parents=True, exist_ok=True)
    for text in texts:
        name = text.name if text.suffix else f"{text.name}.txt"
        while (folder / name).exists():
            text_folder = text.parent if name.count(" ") == 0 else text.parents[name.count(" ")]
            name = f"{text_folder.name} {name}"
        shutil.copyfile(text, folder / name)
