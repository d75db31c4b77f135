"""The command `stillfoot report`: progress of the player as text, HTML page and picture."""

from __future__ import annotations

import argparse
import textwrap
from pathlib import Path
from typing import TYPE_CHECKING

from drills.refusal import Refusal
from engine import __version__
from engine.commands.data import all_levels, read_data
from engine.commands.options import UsageError, data_folder, local_now, path_of, quoted
from engine.commands.whole_file import write_whole
from engine.console import one_line, say
from engine.ladder.level_files import load_band
from engine.store.opening import is_new

if TYPE_CHECKING:
    from engine.progress.history_pages import Page
    from engine.progress.progress import Progress

WIDTH = 80
"""Line length of the report as text, in characters."""
INDENT = "  "
"""Indent of each sentence under a heading of the report."""


class ReportError(Refusal):
    """There is nothing to report; the text is one line for the user."""


def add_report(parser: argparse.ArgumentParser) -> None:
    """Add the options of `report` to a parser."""
    file = path_of("a file")
    parser.add_argument(
        "--html", metavar="FILE.html", type=file, help="write one page, to read or print"
    )
    parser.add_argument("--png", metavar="FILE.png", type=file, help="write one picture, to share")


def run_report(options: argparse.Namespace) -> int:
    """Print the report and write the files asked for; return the exit code. Raises Refusal."""
    for name, file in (("html", options.html), ("png", options.png)):
        if file is not None and file.suffix.lower() != f".{name}":
            raise UsageError(
                f"--{name}: expected a name that ends in .{name}, found {quoted(str(file))}"
            )
    progress = _progress(data_folder(options))
    if options.html is not None:
        from engine.progress.report_page import as_html

        page = as_html(progress, __version__)
        # The name of a folder may hold bytes that are no text.
        write_whole(options.html, page.encode("utf-8", "backslashreplace"), "--html")
    if options.png is not None:
        from engine.progress.report_picture import as_png

        write_whole(options.png, as_png(progress), "--png")
    say(report_text(progress))
    for file in filter(None, (options.html, options.png)):
        say(f"\nWritten: {one_line(str(file))}\n")
    return 0


def report_text(progress: Progress) -> str:
    """Progress report as text: the sentences of the history screens, under the same headings."""
    from engine.date_words import full_words
    from engine.progress.history_pages import PAGES

    parts = [f"stillfoot: progress on {full_words(progress.today)}\n"]
    parts += [_page_text(progress, page) for page in PAGES.values()]
    return "\n".join(parts)


def _page_text(progress: Progress, page: Page) -> str:
    # The sentences of a page with a chart for each kind say themselves what is too early.
    missing = "" if page.is_per_kind and progress.kinds else page.missing(progress)
    sentences = [*page.printed(progress), *([f"Nothing yet: {missing}."] if missing else [])]
    lines = [
        line
        for sentence in sentences
        for line in textwrap.wrap(
            one_line(sentence), WIDTH, initial_indent=INDENT, subsequent_indent=2 * INDENT
        )
    ]
    return "".join(f"{line}\n" for line in [page.question, *lines])


def _progress(folder: Path) -> Progress:
    """Progress read from the history in a folder; no history is created if there is none.

    Raises ReportError if there is nothing to report, StoreError, LevelError.
    """
    from engine.progress.progress import progress_of

    if is_new(folder):
        raise ReportError(f"{folder}: expected a history to report, found none yet")
    levels, band, today = all_levels(folder), load_band(), local_now().date()
    progress = read_data(folder, levels, lambda history: progress_of(history, levels, band, today))
    if not progress.days:
        raise ReportError(f"{folder}: expected some practice to report, found none yet")
    return progress
