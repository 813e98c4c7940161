"""A real browser for the pages that are printed: what it makes of one, at the size of a telephone and on paper."""

from __future__ import annotations

import base64
import json
import os
import re
import select
import shutil
import subprocess
from collections.abc import Mapping
from html import escape
from html.parser import HTMLParser
from pathlib import Path
from typing import Any, Self

NAMES = ("chromium", "chromium-browser")
NO_BROWSER = (
    "There is no Chromium to open the sheets in. Install one (on Debian: apt install chromium), or set CHROMIUM to it."
)
QUIET = (
    "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--disable-background-networking",
    "--no-first-run", "--host-resolver-rules=MAP * ~NOTFOUND", "--remote-debugging-pipe",
)  # fmt: skip
"""Without a network: a page that needs one shows it."""
PAPERS = {"letter": (612, 792), "A4": (595, 842)}
"""Points."""
ROOM = 1 << 20
"""Bytes in the pipe: a printed page is megabytes, and each turn of an ordinary pipe is a wait for the other side."""
VOID = {"meta", "img", "br", "hr", "link", "input"}
PROBE = """[innerWidth, document.documentElement.scrollWidth, document.images.length,
  [...document.images].filter(each => !each.naturalWidth).length]"""
FRAMES = """Object.fromEntries([...document.querySelectorAll("iframe")].map(
  each => [each.name, each.contentDocument.documentElement.scrollWidth]))"""


def chromium() -> str | None:
    """The program of the browser, where there is one."""
    return os.environ.get("CHROMIUM") or next((found for each in NAMES if (found := shutil.which(each))), None)


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


class Browser:
    """One browser for many pages, driven over a pipe by the DevTools Protocol that it speaks.

    Starting a browser costs half a second or more of work, opening one more page in it next to nothing. It ends when
    the pipe does, so none stays behind when the tests are broken off.
    """

    def __init__(self, program: str, folder: Path) -> None:
        self._folder, self._page, self._calls = folder, "", 0
        self._rest, self._heard = b"", list[dict[str, Any]]()
        options = (*QUIET, f"--user-data-dir={folder / 'profile'}", "about:blank")
        with (folder / "browser.log").open("wb") as log:
            hears_on_3_tells_on_4 = ["/bin/sh", "-c", 'exec "$0" "$@" 3<&0 4>&1 </dev/null >&2']
            self._process = subprocess.Popen(
                [*hears_on_3_tells_on_4, program, *options],
                stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=log, bufsize=0, pipesize=ROOM,
            )  # fmt: skip
        assert self._process.stdin is not None
        assert self._process.stdout is not None
        self._ears, self._mouth = self._process.stdout.fileno(), self._process.stdin.fileno()
        target = self._call("Target.createTarget", url="about:blank")["targetId"]
        self._page = self._call("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        self._call("Page.enable")

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self._page = ""
        with self._process:
            self._call("Browser.close")

    # --- what it makes of a page ---

    def measured(self, page: str, wide: int, high: int = 900) -> tuple[int, int, int, int]:
        """Inner width, width of what is on the page, pictures, and pictures that do not show."""
        self._open(page, wide, high)
        inner, content, pictures, broken = self._value(PROBE)
        return inner, content, pictures, broken

    def widths(self, pages: Mapping[str, str], wide: int) -> dict[str, int]:
        """How wide each page is when there is only so much room, pixels."""
        frames = "".join(
            f'<iframe name="{name}" width="{wide}" height="900" srcdoc="{escape(page)}"></iframe>'
            for name, page in pages.items()
        )
        self._open(f"<!DOCTYPE html><meta charset=utf-8><title></title><body>{frames}", 1200, 900)
        found: dict[str, int] = self._value(FRAMES)
        return found

    def pdf_pages(self, page: str, paper: str) -> tuple[int, set[tuple[int, int]]]:
        """Number of printed pages and their sizes in points, on the paper that lies in the printer."""
        self._open(page.replace("</style>", f"@page {{ size: {paper}; }}</style>", 1), 1200, 900)
        data = base64.b64decode(self._call("Page.printToPDF", printBackground=True, preferCSSPageSize=True)["data"])
        boxes = {
            tuple(round(float(each)) for each in box.split()[2:4])
            for box in re.findall(rb"/MediaBox ?\[([^\]]+)\]", data)
        }
        return len(re.findall(rb"/Type\s*/Page[^s]", data)), {(box[0], box[1]) for box in boxes}

    # --- how it is asked ---

    def _open(self, page: str, wide: int, high: int) -> None:
        """Open a page from its file, in a window of this size, and wait until all of it is there."""
        size = {"width": wide, "height": high, "deviceScaleFactor": 1, "mobile": False}
        self._call("Emulation.setDeviceMetricsOverride", **size)
        path = self._folder / "page.html"
        path.write_text(page, "utf-8")
        self._heard.clear()
        self._call("Page.navigate", url=path.as_uri())
        while not any(each.get("method") == "Page.loadEventFired" for each in self._heard):
            self._heard.append(self._next())

    def _value(self, script: str) -> Any:
        """What a script on the page works out."""
        return self._call("Runtime.evaluate", expression=script, returnByValue=True)["result"]["value"]

    def _call(self, method: str, **given: object) -> dict[str, Any]:
        """Ask, and wait for the answer."""
        self._calls += 1
        message: dict[str, object] = {"id": self._calls, "method": method, "params": given}
        if self._page:
            message["sessionId"] = self._page
        data = json.dumps(message).encode() + b"\0"
        while data:
            data = data[os.write(self._mouth, data) :]
        while (answer := self._next()).get("id") != self._calls:
            self._heard.append(answer)
        assert "error" not in answer, f"{method}: {answer['error']}"
        found: dict[str, Any] = answer["result"]
        return found

    def _next(self) -> dict[str, Any]:
        """The next message."""
        while b"\0" not in self._rest:
            ready = select.select([self._ears], [], [], 120)[0]
            more = os.read(self._ears, ROOM) if ready else b""
            assert more, f"the browser is gone: {(self._folder / 'browser.log').read_text(errors='replace')[-600:]}"
            self._rest += more
        one, _, self._rest = self._rest.partition(b"\0")
        found: dict[str, Any] = json.loads(one)
        return found
