"""Report on progress as one HTML page that loads nothing else, for a browser or for paper."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from html import escape

from drills.direction import unturned
from engine.date_words import full_words
from engine.kit.area import Area
from engine.kit.svg import NAMES, SvgCanvas
from engine.progress.history_pages import PAGES, Page
from engine.progress.progress import Progress

WIDTH = 2200
"""Width of a chart in the report, in canvas units: its text is then as large as the page's."""
PRINTED = {
    "ground": "#ffffff",
    "raised": "#f4f5f7",
    "band": "#dde1e6",
    "faint": "#8b929b",
    "earlier": "#8aa6b8",
    "quiet": "#4b5159",
    "text": "#101214",
    "ink": "#4b5159",
    "dip": "#cfe3f1",
    "brake": "#0072b2",
    "throttle": "#9c6a00",
    "clutch": "#9a4a78",
}
"""Colours of the report in print, by name, dark on light; the blue is from Okabe & Ito 2008."""
STYLE = """
body { background: var(--ground); color: var(--text); margin: 0 auto; max-width: 1100px;
  padding: 24px; font: 18px/1.45 sans-serif; }
h1 { font-size: 34px; margin: 0 0 4px; } h2 { font-size: 25px; margin: 40px 0 4px; }
h3 { font-size: 19px; margin: 20px 0 0; } p { margin: 4px 0; } .lead { font-size: 22px;
  font-weight: bold; } footer { color: var(--quiet); margin-top: 40px; }
svg { display: block; width: 100%; height: auto; margin: 12px 0; font-family: sans-serif; }
figure { margin: 0; } polyline { stroke-linejoin: round; stroke-linecap: round; }
@page { size: A4; margin: 14mm; }
@media print {
  body { max-width: none; padding: 0; font-size: 11pt; }
  h2, h3 { break-after: avoid; } section.one, figure { break-inside: avoid; }
  h1 { font-size: 20pt; } h2 { font-size: 15pt; margin-top: 18pt; } h3 { font-size: 12pt; }
}
"""
"""Style sheet of the HTML report, without its colours."""


def as_html(progress: Progress, version: str) -> str:
    """The whole report as HTML; `version` is that of the program.

    What turns the direction of writing, in a note or a title, is an escape in it.
    """
    day = full_words(progress.today)
    page = "\n".join(
        [
            "<!DOCTYPE html>",
            '<html lang="en">',
            "<head>",
            '<meta charset="utf-8">',
            '<meta name="viewport" content="width=device-width, initial-scale=1">',
            f"<title>stillfoot: progress on {day}</title>",
            f"<style>{_colours()}{STYLE}</style>",
            "</head>",
            "<body>",
            "<header>",
            f"<h1>Progress on {day}</h1>",
            "</header>",
            "<main>",
            *(line for page in PAGES.values() for line in _section(progress, page)),
            "</main>",
            f"<footer><p>Made by stillfoot {escape(version)}.</p></footer>",
            "</body>",
            "</html>\n",
        ]
    )
    return unturned(page)


def _colours() -> str:
    """Colours as CSS variables, for screen (light on dark) and print, with classes to use them."""
    dark = {name: "#{:02x}{:02x}{:02x}".format(*colour) for colour, name in NAMES.items()}
    on_screen, in_print = (
        " ".join(f"--{name}: {colour};" for name, colour in colours.items())
        for colours in (dark, PRINTED)
    )
    classes = "".join(
        f".f-{name} {{ fill: var(--{name}); }}\n"
        f".s-{name} {{ fill: none; stroke: var(--{name}); }}\n"
        for name in NAMES.values()
    )
    return f"\n:root {{ {on_screen} }}\n@media print {{ :root {{ {in_print} }} }}\n{classes}"


def _section(progress: Progress, page: Page) -> Iterator[str]:
    """HTML lines of one page of the history: heading, sentences, and its chart or charts."""
    kinds = progress.kinds if page.is_per_kind else ()
    yield f'<section class="{"many" if kinds else "one"}">'
    yield f"<h2>{escape(page.question)}</h2>"
    for number, sentence in enumerate(page.printed(progress)):
        lead = ' class="lead"' if not number and not kinds else ""
        yield f"<p{lead}>{escape(sentence)}</p>"
    for number, kind in enumerate(kinds):
        yield f"<figure><h3>{escape(kind.name)}</h3>"
        yield f"{_chart(replace(progress, chosen=number), page, kind.name)}</figure>"
    missing = page.missing(progress)
    if missing and not kinds:
        yield f"<p>Nothing yet: {escape(missing)}.</p>"
    elif not kinds:
        yield f"<figure>{_chart(progress, page, page.question)}</figure>"
    yield "</section>"


def _chart(progress: Progress, page: Page, name: str) -> str:
    """Chart of a page as SVG; `name` describes it to those who cannot see it."""
    height = page.height(progress)
    canvas = SvgCanvas(WIDTH, height)
    page.paint(canvas, Area(0, 0, WIDTH, height), progress)
    return canvas.done(name)
