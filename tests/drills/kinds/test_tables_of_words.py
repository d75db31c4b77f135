"""Every table of sentences and cues agrees with itself: sides, times, and which pedal did what."""

import importlib
import pkgutil
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from types import ModuleType

import pytest

import drills.kinds
from drills import coach, headline
from drills.coach import SMALL, VOID
from drills.kinds.asked_size import with_size
from drills.level import Level
from drills.measures.catalogue import CATALOGUE
from drills.score import Reason, Verdict, weigh
from engine.drill.set_words import WHY_VOID
from tests.drills.kinds.trail_case import asks
from tests.drills.kinds.verdicts import LEVELS

LIGHT, HEAVY = r"\blight(er|est)?\b", r"\bheav(y|ier)\b"
OPPOSITES = (
    (LIGHT, HEAVY),
    (r"\b(late|slow(er|ly)?)\b", r"\b(soon|quick(er|ly)?|fast(er)?)\b"),
    (r"\bbefore\b|\bahead of\b", r"\bafter\b"),
    (r"\bunder its\b", r"\bover its\b"),
)
"""Words of which the sentences on one thing have those of one side only."""
SIDES = {
    "light": HEAVY,
    "heavy": LIGHT,
    "late": OPPOSITES[1][1],
    "slow": OPPOSITES[1][1],
    "soon": OPPOSITES[1][0],
    "quick": OPPOSITES[1][0],
}
"""Words that a thing of such a name is never told in."""
OF_BRAKE = re.compile(
    r"\b(throttle|clutch) (sat|rose|fell|dipped|ended|eased|grew|overshot|wandered|trembled"
    r"|settled|swung|kept getting|came (down|back) |stayed settled|was slow to settle|unevenly)"
)
"""What only the brake does, said of another pedal."""
OF_THROTTLE = {
    *("width", "rise", "fall", "spacing_error", "lateness", "too late", "too soon", "throttle"),
    *("second late", "second soon", "quick", "uneven"),
    *(Reason.NO_BLIP, Reason.FEW_BLIPS, Reason.EXTRA_BLIP, Reason.LIGHT, Reason.HEAVY),
    *(Reason.LATE, Reason.LONG, Reason.OFF_BEAT),
}
"""Names of things that the throttle did, whatever the brake was at."""

FIRST = re.compile(
    r"throttle came .*\b(before|too soon to answer) the cue|before the cue, the throttle came"
    r"|cue came .*\bafter the throttle|throttle came with the cue, not after"
)
"""A throttle that came before its cue could be answered, in whatever order it is told."""
NOTHING = re.compile(r"\b(hardly|next to no|next to nothing|as it was)\b", re.IGNORECASE)
"""Movement too small to speak of."""
ASKED = re.compile(
    r"[\d.]+ (at least|at most|allowed)$|^\D* (was|were) asked$|^a foot takes longer$"
    r"|\bclutch\b"
)
"""What was not done: a number that was allowed, or a thing without one that was asked;
the clutch is told by when it moved."""


@dataclass(frozen=True)
class Entry:
    """Sentences and cues that a table has for one thing."""

    table: str
    """Where they stand."""
    name: object
    """Name of the thing: that of a measure, an outcome, or one of the table's own; or the table."""
    sentences: tuple[str, ...]
    """Sentences on it."""
    cues: tuple[str, ...] = ()
    """Cues after them."""


def entries() -> Iterator[Entry]:
    """What every table of the kinds has to say."""
    for module in pkgutil.iter_modules(drills.kinds.__path__, "drills.kinds."):
        yield from _of_module(importlib.import_module(module.name))
    yield from _of_module(coach)


def _of_module(module: ModuleType) -> Iterator[Entry]:
    for name, value in vars(module).items():
        table = f"{module.__name__}.{name}"
        for key, said in value.items() if isinstance(value, Mapping) else [(name, value)]:
            if _is_texts(said):
                yield Entry(table, key, said)
            elif isinstance(said, tuple) and len(said) == 2 and all(map(_is_texts, said)):
                yield Entry(table, key, *said)


def _is_texts(value: object) -> bool:
    return isinstance(value, tuple) and all(isinstance(one, str) and " " in one for one in value)


ENTRIES = [entry for entry in entries() if entry.sentences]
each = pytest.mark.parametrize(
    "entry", ENTRIES, ids=[f"{entry.table}-{entry.name}" for entry in ENTRIES]
)


@each
def test_the_sentences_on_one_thing_do_not_contradict_each_other(entry: Entry) -> None:
    for one, other in OPPOSITES:
        has_one = [said for said in entry.sentences if re.search(one, said, re.I)]
        has_other = [said for said in entry.sentences if re.search(other, said, re.I)]
        assert not has_one or not has_other or has_one == has_other, (one, has_one, has_other)


@each
def test_a_thing_that_is_named_by_its_side_is_told_on_that_side(entry: Entry) -> None:
    for side in set(str(entry.name).split()) & set(SIDES):
        assert not [said for said in entry.sentences if re.search(SIDES[side], said, re.I)]


@each
def test_a_text_names_each_pedal_once_and_by_what_it_does(entry: Entry) -> None:
    for text in (*entry.sentences, *entry.cues):
        for pedal in ("brake", "throttle", "clutch"):
            assert len(re.findall(rf"\b{pedal}\b", text, re.I)) <= 1, text
        assert not OF_BRAKE.search(text), text
        if entry.name in OF_THROTTLE and "squeeze" not in entry.table:
            assert "brake" not in text, text


def test_the_tables_of_every_kind_are_read() -> None:
    tables = {entry.table.split(".")[2] for entry in ENTRIES if "kinds" in entry.table}

    assert {name for name in tables if name.endswith(("words", "faults"))} >= {
        *("asked_words", "blip_faults", "clean_words", "hold_words", "run_words"),
        *("squeeze_words", "trail_faults"),
    }
    assert {entry.name for entry in ENTRIES} >= OF_THROTTLE


@pytest.mark.parametrize("name", [*headline.WORDS, *headline.SIGNED])
def test_a_figure_counts_in_the_unit_of_its_measure(name: str) -> None:
    counted = [headline.WORDS[name]] if name in headline.WORDS else headline.SIGNED[name]

    for words in counted:
        assert words.startswith("points") == (CATALOGUE[name].unit in ("points", "points/s"))
        assert ("throttle" in words) == (name in ("coupling", "width", "rise", "fall"))


@pytest.mark.parametrize("name", headline.WORDS)
def test_a_figure_of_one_is_told_in_the_singular_of_its_own_words(name: str) -> None:
    verdict = Verdict(Reason.CLEAN, measures={name: 1.0}, worst=name)

    figure = headline.of_worst(verdict, {name: 2.0})

    assert figure is not None
    counted = figure.words.rpartition(", ")[0]
    plural = headline.WORDS[name].split()
    assert counted.split()[1:] == plural[1:] if figure.value == "1" else counted.split() == plural
    assert figure.value != "1" or not counted.split()[0].endswith("s")


@pytest.mark.parametrize("kind", ["blip", "trail"])
@pytest.mark.parametrize("name", ["dip", "surge"])
def test_a_movement_too_small_to_speak_of_is_told_as_next_to_nothing(kind: str, name: str) -> None:
    level = replace(LEVELS[kind], limits={name: 15.0})
    still = dict.fromkeys(level.kind.measures, 0.0)
    told = [
        level.kind.remark(level, weigh({**still, "onset": 2.0, "end": 2.2, name: size}, {name: 15}))
        for size in (SMALL - 0.1, SMALL + 0.1)
    ]

    small, more = ([re.search(NOTHING, said) for said in one.sentences] for one in told)
    assert all(small)
    assert not any(more)


@pytest.mark.parametrize(
    "level",
    [*LEVELS.values(), asks(0), asks(1)],
    ids=[*LEVELS, "trail without a blip", "trail with one"],
)
def test_a_figure_for_what_was_not_done_says_what_was_asked_or_how_much_is_allowed(
    level: Level,
) -> None:
    sized = with_size(level, 60.0) if "blip.least" in level.own else level
    told = [sized.kind.missed(sized, Verdict(reason)) for reason in Reason]

    for _, _, asked in [figure for figure in told if figure is not None]:
        assert ASKED.search(asked), asked


@pytest.mark.parametrize("reaction", [-0.4, -0.02, 0.07])
def test_a_throttle_that_came_too_soon_is_never_told_to_have_followed(reaction: float) -> None:
    verdict = Verdict(Reason.ANTICIPATION, measures={"reaction": reaction})

    for said in coach.not_judged(verdict).sentences:
        assert re.search(FIRST, said), said


def test_a_brake_at_its_end_is_told_so_wherever_it_is_told() -> None:
    sentences, _ = VOID[Reason.AT_END]

    assert all(re.search(r"\bend\b", said) for said in (WHY_VOID[Reason.AT_END], *sentences))
