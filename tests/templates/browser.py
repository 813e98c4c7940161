"""A real browser for the pages that are printed: what it makes of one, at the size of a telephone and on paper."""

from __future__ import annotations

import re
import subprocess
from html import escape
from html.parser import HTMLParser
from pathlib import Path

import pytest

CHROMIUM = Path("/usr/bin/chromium")
needs_browser = pytest.mark.skipif(not CHROMIUM.exists(), reason="there is no Chromium here to open the page in")
QUIET = (
    "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--disable-background-networking",
    "--host-resolver-rules=MAP * ~NOTFOUND",
)  # fmt: skip
"""Without a network: a page that needs one shows it."""
PROBE = """<script>
const out = [innerWidth, document.documentElement.scrollWidth, document.images.length,
  [...document.images].filter(each => !each.naturalWidth).length];
document.title = "PROBE " + out.join(" ");
</script>"""
VOID = {"meta", "img", "br", "hr", "link", "input"}


class Seen(HTMLParser):
    """The elements of a page: are they closed in order, and what do they point at."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.wrong: list[str] = []
        self.tags: list[str] = []
        self.ids: list[str] = []
        self.points: list[str] = []
        self.words: list[str] = []
        self.feed(text)
        self.wrong += self.open

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note an element."""
        self.tags.append(tag)
        for name, value in attrs:
            if name == "id":
                self.ids.append(value or "")
            elif name in ("src", "href"):
                self.points.append(value or "")
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        """Note its end."""
        if not self.open or self.open.pop() != tag:
            self.wrong.append(f"/{tag}")

    def handle_data(self, data: str) -> None:
        """Note the text."""
        if not self.open or self.open[-1] != "style":
            self.words.append(data)

    @property
    def text(self) -> str:
        """All that is read on the page."""
        return " ".join(" ".join(self.words).split())


def run(folder: Path, *options: str) -> str:
    """What the browser writes."""
    command = [str(CHROMIUM), *QUIET, f"--user-data-dir={folder / 'profile'}", *options]
    return subprocess.run(command, capture_output=True, text=True, timeout=120, check=True).stdout


def measured(page: str, folder: Path, wide: int, high: int = 900) -> tuple[int, int, int, int]:
    """Inner width, width of what is on the page, pictures, and pictures that do not show."""
    path = folder / "probe.html"
    path.write_text(page.replace("</body>", f"{PROBE}</body>"), "utf-8")
    dom = run(folder, f"--window-size={wide},{high}", "--virtual-time-budget=4000", "--dump-dom", path.as_uri())
    found = re.search(r"PROBE (\d+) (\d+) (\d+) (\d+)", dom)
    assert found, dom[:300]
    return int(found[1]), int(found[2]), int(found[3]), int(found[4])


PAPERS = {"letter": (612, 792), "A4": (595, 842)}
"""Points."""


def pdf_pages(page: str, folder: Path, paper: str) -> tuple[int, set[tuple[int, int]]]:
    """Number of printed pages and their sizes in points, on the paper that lies in the printer."""
    path, out = folder / "page.html", folder / "page.pdf"
    path.write_text(page.replace("</style>", f"@page {{ size: {paper}; }}</style>", 1), "utf-8")
    run(folder, "--no-pdf-header-footer", f"--print-to-pdf={out}", path.as_uri())
    data = out.read_bytes()
    boxes = {
        tuple(round(float(each)) for each in box.split()[2:4]) for box in re.findall(rb"/MediaBox ?\[([^\]]+)\]", data)
    }
    return len(re.findall(rb"/Type\s*/Page[^s]", data)), {(box[0], box[1]) for box in boxes}


def widths(pages: dict[str, str], folder: Path, wide: int) -> dict[str, int]:
    """How wide each page is when there is only so much room, pixels; all of them in one run of the browser."""
    frames = "".join(
        f'<iframe name="{name}" width="{wide}" height="900" srcdoc="{escape(page)}"></iframe>'
        for name, page in pages.items()
    )
    probe = """<script>
onload = () => document.title = "PROBE " + [...document.querySelectorAll("iframe")].map(
  each => each.name + "=" + each.contentDocument.documentElement.scrollWidth).join(" ");
</script>"""
    path = folder / "frames.html"
    path.write_text(f"<!DOCTYPE html><meta charset=utf-8><title></title><body>{frames}{probe}</body>", "utf-8")
    dom = run(folder, "--window-size=1200,900", "--virtual-time-budget=20000", "--dump-dom", path.as_uri())
    found = re.search(r"PROBE ([^<]+)", dom)
    assert found, dom[:300]
    return {name: int(size) for name, size in (each.split("=") for each in found[1].split())}
