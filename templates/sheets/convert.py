"""The formats of sheets, and those that are no text: a PDF from a page, a PNG from a drawing.

A PDF is made by WeasyPrint (`studbook[pdf]`), or by a Chromium that is there; a PNG by resvg (`studbook[pictures]`).
Nothing is fetched: a page holds all that it shows.
"""

from __future__ import annotations

import os
from pathlib import Path

from store.measure.errors import StudbookError

SOURCE = {"pdf": "html", "png": "svg"}
"""What a format is made from."""
MARK = "Studbook sheet"
MARKS = {
    "html": f"<!-- {MARK} -->\n",
    "svg": f"<!-- {MARK} -->\n",
    "md": f"\n<!-- {MARK} -->\n",
    "txt": f"\n-- {MARK}\n",
    "ics": "",
    "csv": "",
    "dxf": "",
    "pdf": "",
    "png": "",
}
"""What ends a file of each format; of those that can carry none, like calendars, it is remembered what was written."""
BROWSERS = ("chromium", "chromium-browser")
QUIET = ("--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--host-resolver-rules=MAP * ~NOTFOUND")
PNG_WIDE = 2200
"""Pixels: 200 to the inch on a letter sheet."""
SCREEN_DPI = 96
SECONDS = 120
FIRST = b"%PDF"


class NotInstalled(StudbookError):
    """What makes this format is not installed."""

    exit_status = 2


def converted(text: str, form: str) -> bytes:
    """A sheet in a format that is no text, from the page or drawing that it is made of. Raises NotInstalled."""
    return _pdf(text) if form == "pdf" else _png(text)


def _png(svg: str) -> bytes:
    try:
        import resvg_py
    except ImportError as error:
        raise NotInstalled("a PNG needs one more package: pip install 'studbook[pictures]'. SVG needs none.") from error
    return bytes(resvg_py.svg_to_bytes(svg_string=svg, width=PNG_WIDE, dpi=SCREEN_DPI))


def _pdf(page: str) -> bytes:
    try:
        return _by_library(page)
    except (ImportError, OSError) as error:
        found = browser()
        if found:
            return _by_browser(page, found)
        system = (
            "" if isinstance(error, ImportError) else " and the system's Pango (Debian: apt install libpango-1.0-0)"
        )
        raise NotInstalled(
            f"a PDF needs one more package: pip install 'studbook[pdf]'{system}; or print the html from a browser."
        ) from error


def _by_library(page: str) -> bytes:
    import weasyprint
    from weasyprint.urls import URLFetcher

    from templates.sheets import pdf_text

    if not pdf_text.install():
        raise ImportError("this release of WeasyPrint was not tried")
    nothing = URLFetcher(allowed_protocols=("data",))
    made: bytes = weasyprint.HTML(string=page, url_fetcher=nothing).write_pdf()
    return made


def browser() -> str | None:
    """The browser that is there, or None."""
    import shutil

    named = os.environ.get("CHROMIUM")
    return named or next((found for each in BROWSERS if (found := shutil.which(each))), None)


def _by_browser(page: str, program: str) -> bytes:
    import subprocess  # only here: not every system that can hold a job can start a program
    import tempfile

    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        source, to = folder / "sheet.html", folder / "sheet.pdf"
        source.write_text(page, "utf-8")
        words = [program, *QUIET, f"--user-data-dir={folder / 'profile'}", "--no-pdf-header-footer"]
        try:
            subprocess.run(
                [*words, f"--print-to-pdf={to}", source.as_uri()],
                check=True, timeout=SECONDS, stdin=subprocess.DEVNULL, capture_output=True,
            )  # fmt: skip
            made = to.read_bytes()
        except (OSError, subprocess.SubprocessError) as error:
            raise NotInstalled("the browser could not print the sheet. Print the html by hand.") from error
    if not made.startswith(FIRST):
        raise NotInstalled("the browser could not print the sheet. Print the html by hand.")
    return made
