"""The mark on every sheet of a job whose stage was not earned, or in whose closed wall something was found after."""

from __future__ import annotations

import html

from store.measure.text import clean
from store.records.whole import Job
from store.rules.gate.gate import standing

MOST = 20
"""Keys that are named."""


def mark_of(job: Job) -> str:
    """What a reader of any sheet must know of the stage; empty where there is nothing."""
    now = standing(job, [])
    told = []
    if now.claimed:
        told.append(f"Recorded, not earned: {now.claimed}. {now.unearned[:1].upper()}{now.unearned[1:]}.")
    if now.found_after:
        keys = [each.key for each in now.found_after]
        more = f" and {len(keys) - MOST} more" if len(keys) > MOST else ""
        told.append(f"Found after close-in: {', '.join(keys[:MOST])}{more}.")
    return clean(" ".join(told))


def marked(text: str, form: str, job: Job) -> str:
    """A sheet with the mark on it; a table for a spreadsheet and a calendar are left as they are."""
    if form not in ("html", "pdf", "md", "txt", "svg", "png") or not (mark := mark_of(job)):
        return text
    if form in ("html", "pdf"):
        head, body, rest = text.partition("<body")
        start, close, rest = rest.partition(">")
        return f'{head}{body}{start}{close}<p class="banner"><strong>{html.escape(mark)}</strong></p>{rest}'
    if form in ("svg", "png"):
        at = text.rfind("</svg>")
        return f'{text[:at]}<text x="4" y="12" font-size="10" font-weight="bold">{html.escape(mark)}</text>{text[at:]}'
    return f"**{mark}**\n\n{text}" if form == "md" else f"{mark}\n\n{text}"
