"""The buying list on paper: Markdown that reads as plain text, one HTML page, and csv."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from store.measure.money import show_money
from store.measure.text import clean
from store.records.whole import Job
from store.rules.buying.buying_list import CUTTING, GROUPS, buying_list, cutting_list, total_of
from store.rules.buying.line import Line
from store.rules.core.wording import date_text
from templates.sheets.layout.lying import LYING
from templates.spreadsheet.text import csv_text, plain_money

HEADINGS = ("to buy", "what", "needed at", "each", "together", "note")
CAUTION = (
    "Lengths are a planning aid: measure the route before you cut. Never splice inside a wall. Buy power cable and "
    "boxes as the electrician says."
)
_MARKS = str.maketrans({sign: f"\\{sign}" for sign in "\\`*_{}[]<>#|~"})
_STYLE = """
body { font: 11pt/1.4 sans-serif; margin: 1.5cm; color: #000; background: #fff; }
table { border-collapse: collapse; margin: 0.5em 0 1em; width: 100%; }
th, td { border: 1px solid #555; padding: 0.2em 0.5em; text-align: left; vertical-align: top; }
h1, p { overflow-wrap: anywhere; } td { overflow-wrap: anywhere; min-width: 4em; } td:first-child { min-width: 1em; }
table { table-layout: fixed; } th:nth-child(1) { width: 1.2em; } th:nth-child(2) { width: 3.6em; }
th:nth-child(4) { width: 14%; } th:nth-child(5), th:nth-child(6) { width: 5em; } th:nth-child(7) { width: 22%; }
th { background: #eee; } .n { text-align: right; white-space: nowrap; }
.caution { border-left: 4px solid #000; padding-left: 0.8em; }
@media print { body { margin: 0; font-size: 9pt; } tr { page-break-inside: avoid; } }
"""


def buying_markdown(job: Job) -> str:
    """The list in Markdown, an empty box to tick in front of each line."""
    lines = buying_list(job)
    parts = [
        f"# To buy: {_plain(job.settings.name)}",
        f"{date_text(job, job.today)}. {_totals(job, lines)}",
        f"> {CAUTION}",
    ]
    for group in (*GROUPS, CUTTING):
        rows = [line for line in (*lines, *cutting_list(job)) if line.group == group]
        if rows:
            parts.append(f"## {group}")
            parts.append("\n".join(_entry(job, line) for line in rows))
    if not lines:
        parts.append("All bought.")
    return "\n\n".join(parts) + "\n"


def _entry(job: Job, line: Line) -> str:
    price = f", {_money(job, line.total)}" if line.total is not None else ""
    note = f" ({_plain(line.note)})" if line.note else ""
    first = f"- [ ] {_count(line)}{_plain(line.what)}{price}; {_plain(line.where)}{note}"
    return first + (f"\n      - cut: {_plain(', '.join(line.cuts))}" if line.cuts else "")


def _count(line: Line) -> str:
    return f"{line.count} × " if line.count else ""


def buying_html(job: Job, drawing: str = "") -> str:
    """The list as one HTML page, everything that people typed escaped; at its end a `drawing` of where things go."""
    lines = buying_list(job)
    title = escape(clean(f"To buy: {job.settings.name}"))
    parts = [
        '<!DOCTYPE html><html lang="en"><head><meta charset="utf-8">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        f"<title>{title}</title><style>{_STYLE}{LYING if drawing else ''}</style></head><body><h1>{title}</h1>",
        f"<p>{escape(date_text(job, job.today))}. {escape(_totals(job, lines))}</p>",
        f'<p class="caution">{escape(CAUTION)}</p>',
    ]
    for group in (*GROUPS, CUTTING):
        rows = [line for line in (*lines, *cutting_list(job)) if line.group == group]
        if rows:
            head = "".join(f"<th>{each}</th>" for each in ("", *HEADINGS))
            body = "".join(_html_row(job, line) for line in rows)
            parts.append(f"<h2>{group}</h2><table><thead><tr>{head}</tr></thead><tbody>\n{body}</tbody></table>")
    parts += [drawing, "</body></html>\n"]
    return "\n".join(parts)


def _html_row(job: Job, line: Line) -> str:
    cuts = f"cut {', '.join(line.cuts)}" if line.cuts else ""
    note = "; ".join(each for each in (cuts, line.note) if each)
    cells = (("n", str(line.count or "")), ("", line.what), ("", line.where))
    prices = (("n", _money(job, line.each)), ("n", _money(job, line.total)), ("", note))
    inner = "".join(
        f'<td class="{mark}">{escape(clean(text))}</td>' if mark else f"<td>{escape(clean(text))}</td>"
        for mark, text in (*cells, *prices)
    )
    return f"<tr><td>☐</td>{inner}</tr>\n"


def buying_csv(job: Job) -> str:
    """The list as csv, amounts without a sign; no cell is one that a spreadsheet would obey."""
    rows = [["group", "count", "what", "needed at", "each", "together", "currency", "cuts", "note"]]
    for line in buying_list(job):
        currency = job.settings.currency
        each, total = (
            "" if one is None else plain_money(one, currency, job.manner.comma) for one in (line.each, line.total)
        )
        row = (line.group, str(line.count), line.what, line.where, each, total, currency)
        rows.append([*row, ", ".join(line.cuts), line.note])
    return csv_text(rows, job.manner.comma)


def _money(job: Job, amount: int | None) -> str:
    return "" if amount is None else show_money(amount, job.settings.currency)


def _totals(job: Job, lines: Sequence[Line]) -> str:
    total, unpriced = total_of(lines)
    rest = f"; {unpriced} without a price" if unpriced else ""
    return f"Known prices come to {_money(job, total)}{rest}."


def _plain(text: str) -> str:
    """Text that Markdown does not obey."""
    return clean(text).translate(_MARKS)
