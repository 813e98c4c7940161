"""Drawing sheets bound into a page of text: each on a page of its own, lying on its side."""

from __future__ import annotations

from collections.abc import Sequence

NO_FOOT = "@bottom-left { content: none; } @bottom-right { content: none; }"
LYING = (
    ".drawing { margin: 0.5em 0; } .drawing svg { display: block; width: 100%; height: auto; } "
    "@media print { .drawing { page: drawing; break-before: page; margin: 0; } .drawing svg { max-width: none; } } "
)
"""The style of a page that has such sheets."""


def bound_in(pages: Sequence[str], wide: float, high: float) -> str:
    """Pages of SVG of one size in millimeters, to be put at the end of a page of text with the style `LYING`."""
    if not pages:
        return ""
    page = f"@page drawing {{ size: {wide:g}mm {high:g}mm; margin: 0; {NO_FOOT} }}"
    size = f"@media print {{ .drawing svg {{ width: {wide:g}mm; }} }}"
    return f"<style>{page} {size}</style>" + "".join(f'<div class="drawing">{each}</div>\n' for each in pages)
