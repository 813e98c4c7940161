"""The code to scan on a panel card: the short of it, so that it is read at 25 mm by any telephone."""

from __future__ import annotations

from collections.abc import Sequence

from store.measure.text import clean

MOST_BYTES = 150
"""At 25 mm with its white border, so much is read from a picture that is not perfect: measured with a reader."""
SIZE_MM = 25
BORDER = 4
"""White modules round it: ISO/IEC 18004."""


def short_of(tag: str, name: str, off: Sequence[str], behind: Sequence[str], job: str, day: str) -> str:
    """What the code says, at most 150 bytes: panel, what is off first, what is behind, job and day.

    Where it is too long, first the names and then the last tags give way; what is off first never does before them.
    """
    what = f"OFF {'; '.join(off)}" if off else "OFF: ask, none entered"
    tags = [*behind]
    for named, jobs in ((name, job), (name[:16], job[:20]), ("", job[:12])):
        lines = [f"{tag} {named}".strip(), what, " ".join(tags), f"{jobs}, {day}"]
        said = clean("\n".join(each for each in lines if each), lines=True)
        if len(said.encode()) <= MOST_BYTES:
            return said
    while tags:
        tags.pop()
        said = clean("\n".join([tag, what, " ".join([*tags, "and more"]), f"{job[:12]}, {day}"]), lines=True)
        if len(said.encode()) <= MOST_BYTES:
            return said
    return clean(f"{tag}\n{what}", lines=True).encode()[: MOST_BYTES - 3].decode(errors="ignore") + "…"


def code_svg(text: str) -> str:
    """The code as SVG, 25 mm with its border: QR code, error level M (ISO/IEC 18004)."""
    import segno

    code = segno.make(text.encode(), error="m", micro=False, boost_error=False, mode="byte")
    rows = [*code.matrix_iter(scale=1, border=BORDER)]
    dark = "".join(f"M{x} {y}h1v1h-1z" for y, row in enumerate(rows) for x, on in enumerate(row) if on)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="code" width="{SIZE_MM}mm" height="{SIZE_MM}mm" '
        f'viewBox="0 0 {len(rows)} {len(rows)}" role="img" shape-rendering="crispEdges">'
        f'<rect width="{len(rows)}" height="{len(rows)}" fill="#fff"/><path d="{dark}" fill="#000"/></svg>'
    )
