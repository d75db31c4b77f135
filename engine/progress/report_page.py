"""Progress as one page for a browser and for paper, with all it needs in it and nothing loaded."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from engine.kit.charts import Area
from engine.kit.charts_dates import full_words
from engine.kit.svg import NAMES, SvgCanvas
from engine.progress.history_pages import HistoryContent, learning_page, pages
from engine.progress.progress import Progress

WIDTH = 2200
"""units across a chart: its words are then as large as those of the page, on a screen and on A4."""
PRINTED = {
    "ground": "#ffffff",
    "raised": "#f4f5f7",
    "band": "#dde1e6",
    "faint": "#8b929b",
    "earlier": "#8aa6b8",
    "quiet": "#4b5159",
    "text": "#101214",
    "brake": "#0072b2",
    "throttle": "#9c6a00",
    "clutch": "#9a4a78",
}
"""Colours on paper, dark on light; the blue is of Okabe & Ito 2008 too."""
STYLE = """
body { background: var(--ground); color: var(--text); margin: 0 auto; max-width: 1100px;
  padding: 24px; font: 18px/1.45 sans-serif; }
h1 { font-size: 34px; margin: 0 0 4px; } h2 { font-size: 25px; margin: 40px 0 4px; }
h3 { font-size: 19px; margin: 20px 0 0; } p { margin: 4px 0; } .number { font-size: 44px;
  font-weight: bold; color: var(--brake); } footer { color: var(--quiet); margin-top: 40px; }
svg { display: block; width: 100%; height: auto; margin: 12px 0; font-family: sans-serif; }
figure { margin: 0; } polyline { stroke-linejoin: round; stroke-linecap: round; }
@page { size: A4; margin: 14mm; }
@media print {
  body { max-width: none; padding: 0; font-size: 11pt; }
  h2, h3 { break-after: avoid; } section.one, figure { break-inside: avoid; }
  h1 { font-size: 20pt; } h2 { font-size: 15pt; margin-top: 18pt; } h3 { font-size: 12pt; }
}
"""
"""How the page looks beside its colours."""


def as_html(progress: Progress, version: str) -> str:
    """The page; `version` is of the program that makes it."""
    day = full_words(progress.today)
    return "\n".join(
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
            *_number(progress),
            "</header>",
            "<main>",
            *(line for page in pages(progress) for line in _section(progress, page)),
            "</main>",
            f"<footer><p>Made by stillfoot {escape(version)}.</p></footer>",
            "</body>",
            "</html>\n",
        ]
    )


def _colours() -> str:
    """The colours as variables, dark on a screen and light in print, and a class for each."""
    dark = {name: "#{:02x}{:02x}{:02x}".format(*colour) for colour, name in NAMES.items()}
    seen, printed = (
        " ".join(f"--{name}: {colour};" for name, colour in some.items())
        for some in (dark, PRINTED)
    )
    classes = "".join(
        f".f-{name} {{ fill: var(--{name}); }}\n"
        f".s-{name} {{ fill: none; stroke: var(--{name}); }}\n"
        for name in NAMES.values()
    )
    return f"\n:root {{ {seen} }}\n@media print {{ :root {{ {printed} }} }}\n{classes}"


def _number(progress: Progress) -> Iterator[str]:
    """The one number to watch, where there is one."""
    if progress.band is not None:
        yield f'<p class="number">±{progress.band.value:.1f} points</p>'
        yield "<p>Steadiness: three blips in four stay inside.</p>"


def _section(progress: Progress, page: HistoryContent) -> Iterator[str]:
    """A heading, its sentences and its picture; of learning curves one of each kind."""
    yield f'<section class="{"many" if page.kinds else "one"}">'
    yield f"<h2>{escape(page.title)}</h2>"
    yield from (f"<p>{escape(sentence)}</p>" for sentence in page.says)
    if page.kinds:
        for number, learned in enumerate(progress.learned):
            yield f"<figure><h3>{escape(learned.name)}</h3>"
            yield f"{_picture(learning_page(progress, number), learned.name)}</figure>"
    elif page.later:
        yield f"<p>Nothing yet: {escape(page.later)}.</p>"
    else:
        yield f"<figure>{_picture(page, page.title)}</figure>"
    yield "</section>"


def _picture(page: HistoryContent, called: str) -> str:
    """The picture of a page."""
    canvas = SvgCanvas(WIDTH, page.height)
    page.paint(canvas, Area(0, 0, WIDTH, page.height))
    return canvas.done(called)
