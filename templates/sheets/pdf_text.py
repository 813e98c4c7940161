"""Texts of drawings in a PDF as whole lines of type.

WeasyPrint lays out each text of a drawing letter by letter, because SVG lets every letter have a place of its own. Ours
have one place a text: laid out in one piece, a packet of many cables takes a third less time, and a reader finds words
in the file rather than letters, and a halo is under its letters. What is more than that is left to WeasyPrint. This
goes by names inside it: releases that were not tried are not used, as labels would be lost in silence.
"""

from __future__ import annotations

from math import inf
from typing import Any

TRIED = "70"
"""The release of WeasyPrint whose inside is known."""
APART = frozenset(
    ("dx", "dy", "rotate", "textLength", "letter-spacing", "direction", "dominant-baseline", "alignment-baseline",
     "display-anchor")
)  # fmt: skip
"""Attributes by which letters, or the line as a whole, are not simply at their place."""


def install() -> bool:
    """Let WeasyPrint draw the plain texts of drawings in one piece; False where its release was not tried.

    Once is enough; again does no harm.
    """
    from weasyprint import __version__, svg

    if __version__.partition(".")[0] != TRIED:
        return False
    try:
        theirs = svg.text
        names = [name for name, drawn_by in svg.TAGS.items() if drawn_by is theirs]
        from weasyprint.css.properties import INITIAL_VALUES
        from weasyprint.draw.text import draw_emojis, draw_first_line
        from weasyprint.matrix import Matrix
        from weasyprint.svg.bounding_box import EMPTY_BOUNDING_BOX, extend_bounding_box
        from weasyprint.svg.text import Style, TextBox
        from weasyprint.svg.utils import size
        from weasyprint.text.line_break import split_first_line
    except (AttributeError, ImportError):
        return False
    if getattr(theirs, "whole_lines", False):
        return True

    def ours(drawing: Any, node: Any, font_size: float) -> None:
        if not is_plain(node):
            theirs(drawing, node, font_size)
            return
        style = Style(INITIAL_VALUES)
        style.font_config = drawing.font_config
        style.update(_letters(node, font_size))
        layout, _, _, width, height, base = split_first_line(node.text, style, drawing.context, inf, 0)
        x = size(node.get("x", "0"), font_size, drawing.inner_width)
        y = size(node.get("y", "0"), font_size, drawing.inner_height)
        corners = ((x, y - base), (x + width, y - base + height))
        node.text_bounding_box = extend_bounding_box(EMPTY_BOUNDING_BOX, corners)
        drawing.cursor_position = x + width, y
        stream = drawing.stream
        stream.push_state()
        fill, stroke = drawing.set_graphical_state(node, font_size)
        box = TextBox(layout, style)
        box.baseline = base
        # A halo is under the letters, which the order of painting says; WeasyPrint alone would paint it over them.
        halo = bool(stroke) and node.get("paint-order", "").startswith("stroke")
        for filled, edged in ((False, stroke), (fill, False)) if halo else ((fill, stroke),):
            stream.begin_text()
            layout.reactivate(style)
            drawing.fill_stroke(filled, edged, text=True)
            emojis = draw_first_line(stream, box, "none", "none", Matrix(d=-1, e=x, f=y))
            stream.end_text()
        stream.pop_state()
        draw_emojis(stream, style, x, y, emojis)

    ours.whole_lines = True  # type: ignore[attr-defined]
    svg.text = ours
    svg.TAGS.update(dict.fromkeys(names, ours))
    return True


WEIGHTS = {"normal": 400, "bold": 700}


def _letters(node: Any, font_size: float) -> dict[str, Any]:
    """How the letters of a text look, as properties of a style sheet."""
    return {
        "font_family": [name.strip("\"' ") for name in node.get("font-family", "sans-serif").split(",")],
        "font_style": node.get("font-style", "normal"),
        "font_weight": WEIGHTS[node.get("font-weight", "normal")],
        "font_size": font_size,
    }


def is_plain(node: Any) -> bool:
    """True for a text of one line at one place, without a part that is set apart."""
    if node.tag != "text" or not (node.text or "").strip() or APART & node.attrib.keys() or any(True for _ in node):
        return False
    return node.get("font-weight", "normal") in WEIGHTS and all(
        len(node.get(key, "").replace(",", " ").split()) < 2 for key in ("x", "y")
    )
