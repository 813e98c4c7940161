"""What is at the foot of every page of paper: job, sheet, date and revision, and which page of how many it is."""

from __future__ import annotations

import re

FONT = "font: 8.5pt sans-serif;"
LONGEST = 40
"""Letters of a word at the foot."""
LONG = re.compile(rf"\S{{{LONGEST + 4},}}")
KEPT = "h1, h2, h3 { break-after: avoid; } thead { display: table-header-group; } tr { break-inside: avoid; } "
KEPT += "tbody tr:last-child:not(:first-child) { break-before: avoid; }"
"""A heading stays with what follows it, no row is cut in two, and none goes to the next page alone."""


def foot_text(*parts: str) -> str:
    """The parts that are not empty as text that may be put between quotes in a style sheet.

    A word without end is cut: a foot has no room to break it, and it stands whole on the page.
    """
    parts = tuple(LONG.sub(lambda found: f"{found[0][:LONGEST]}...", each) for each in parts)
    return re.sub(r"[^\w .,:+'-]", "", ", ".join(each for each in parts if each))


def with_foot(page: str, *parts: str) -> str:
    """A page with its foot on every printed sheet of paper, unless it has one of its own."""
    if "@bottom-right" in page.split("</style>")[0]:
        return page
    left = f'@bottom-left {{ content: "{foot_text(*parts)}"; {FONT} }}'
    right = f'@bottom-right {{ content: "page " counter(page) " of " counter(pages); {FONT} white-space: nowrap; }}'
    return page.replace("</style>", f"@page {{ margin: 14mm 13mm 16mm; {left} {right} }} {KEPT}\n</style>", 1)
