"""`Part`: attempts of one sort to lose a history or to end the program badly, and what they found.

An attempt is a function of its number, which seeds all that it draws, and of an empty folder: it
can be repeated alone. It yields a finding for each thing that was lost or wrong.
"""

import random
import re
import tempfile
import traceback
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from enum import Enum
from pathlib import Path

ROOT = Path(__file__).resolve().parents[3]
"""Folder of the program and its tests."""
PROGRAM = ("drills", "engine")
"""Folders of the program itself."""


class Fault(Enum):
    """What a finding is, as a column of the table."""

    LOST = "lost"
    """Something that was stored, or could be read, is gone."""
    WRONG = "wrong"
    """Traceback, hang, wrong exit code, wrong verdict, refusal of what should work, silence."""


@dataclass(frozen=True)
class Finding:
    """One thing that an attempt found."""

    fault: Fault
    """Whether something is lost or wrong."""
    what: str
    """What it is, in one line without names of temporary folders."""

    @property
    def sort(self) -> str:
        """The same text for findings that differ only in numbers and in what is quoted."""
        return re.sub(r"\d+", "0", re.sub(r"b?(['\"]).*\1", "''", self.what))


def lost(what: str) -> Finding:
    """Finding of something that is lost."""
    return Finding(Fault.LOST, what)


def wrong(what: str) -> Finding:
    """Finding of something that is wrong."""
    return Finding(Fault.WRONG, what)


Attempt = Callable[[int, Path], Iterable[Finding]]
"""Function that makes the attempt of a number, from 0, in an empty folder."""


@dataclass(frozen=True)
class Part:
    """A row of the table: attempts of one sort."""

    name: str
    """One or two words; the first of them chooses the part on the command line."""
    attempt: Attempt
    """Makes one attempt."""
    count: int
    """Number of attempts in the whole campaign."""
    short: int = 0
    """Number of attempts in its short form."""


@dataclass
class Tally:
    """What the attempts of a part found."""

    name: str
    """Name of the part."""
    tried: int = 0
    """Number of attempts."""
    lost: int = 0
    """Number of attempts that lost something."""
    wrong: int = 0
    """Number of attempts that lost nothing but found something wrong."""
    findings: dict[tuple[Fault, str], tuple[Finding, list[int]]] = field(default_factory=dict)
    """First finding of each sort, and the numbers of the attempts with such a one."""

    @property
    def survived(self) -> int:
        """Number of attempts that found nothing."""
        return self.tried - self.lost - self.wrong

    def add(self, number: int, findings: Iterable[Finding]) -> None:
        """Count one attempt."""
        found = {(finding.fault, finding.sort): finding for finding in findings}
        faults = {fault for fault, _ in found}
        self.tried += 1
        self.lost += Fault.LOST in faults
        self.wrong += faults == {Fault.WRONG}
        for sort, finding in found.items():
            self.findings.setdefault(sort, (finding, []))[1].append(number)


def tally(part: Part, numbers: Iterable[int]) -> Tally:
    """Make the attempts of these numbers and count what they found."""
    found = Tally(part.name)
    for number in numbers:
        with tempfile.TemporaryDirectory(prefix="campaign-") as name:
            found.add(number, made(part, number, Path(name)))
    return found


def made(part: Part, number: int, folder: Path) -> Iterator[Finding]:
    """Findings of one attempt, one of them where the attempt itself fails."""
    try:
        for finding in part.attempt(number, folder):
            what = re.sub(f"{re.escape(str(folder))}(/[^/ ]+(?=/))?", "FOLDER", finding.what)
            yield Finding(finding.fault, " ".join(what.split()))
    except Exception as error:
        yield wrong(f"not tried to the end: {raised(error)}")


def raised(error: BaseException) -> str:
    """An exception in one line: its place in the program (else where it was raised), and text."""
    steps = traceback.extract_tb(error.__traceback__)
    ours = [step for step in steps if Path(step.filename).is_relative_to(ROOT)]
    program = [step for step in ours if Path(step.filename).relative_to(ROOT).parts[0] in PROGRAM]
    place = ""
    if steps:
        step = (program or ours or steps)[-1]
        file = Path(step.filename)
        where = file.relative_to(ROOT) if step in ours else file.name
        place = f" at {where}, {step.name}"
    return f"{type(error).__name__}{place}: {error}"[:200]


def drawn(part: str, number: int) -> random.Random:
    """Random numbers of an attempt."""
    return random.Random(f"{part} {number}")
