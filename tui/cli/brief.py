"""The job on one screen of a terminal: stage, stops, items by trade, problems, and what is due."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from store.measure.money import show_money
from store.records.people import Trade
from store.records.whole import Job
from store.rules.agenda.agenda import agenda
from store.rules.core.findings import SEVERITIES, SEVERITY_WORDS, Finding
from store.rules.core.taken_off import taken_off
from store.rules.core.wording import day_short
from store.rules.gate.by_trade import TradeItems, by_trade, trade_title
from store.rules.gate.gate import STAGES, Standing, locked_line, outside_line, standing
from store.rules.gate.status import buying_totals
from tui.shared.bars import bar

LINES = 24
"""Lines of a terminal as it opens: no more are said, whatever the job holds."""
MOST_STOPS, MOST_TRADES, LEAST_DUE = 2, 6, 2
WIDTH = 79


def brief_lines(job: Job, found: Sequence[Finding], changed: Mapping[Trade, int], file: str) -> list[str]:
    """The status of a job in 24 lines at most.

    `changed` are the changes that a trade with a packet was not told of, `file` the name of the job's file, for the
    command that says all of it.
    """
    now = standing(job, list(found))
    lines = [job.settings.name, f"Now at {now.stage} (stage {STAGES.index(now.stage) + 1} of {len(STAGES)})"]
    if now.claimed:
        lines.append(f"Stage recorded, not earned: {now.claimed} - {now.unearned}")
    if now.next is None:
        lines.append("Last stage.")
    elif now.holds:
        lines.append(locked_line(now))
    elif not now.claimed:
        lines.append(f"Ready for {now.next}.")
    stops = [each for each in found if each.severity == "stop" and not each.answered]
    lines += _some("Stops", [each.headline or each.head for each in stops], MOST_STOPS)
    done = sum(not each.open for each in now.items)
    lines.append(f"Rough-in items: {done} of {len(now.items)} done" if now.items else "Rough-in items: none")
    apart = _apart(job, now)
    lines += _some("", [_trade_line(one) for one in by_trade(now)], MOST_TRADES - max(len(apart) - 1, 0))
    lines += apart
    counts = [(sum(each.severity == name and not each.answered for each in found), name) for name in SEVERITIES]
    open_ones = [f"{count} {'to check' if name == 'look' else SEVERITY_WORDS[name].lower()}" for count, name in counts]
    lines.append(f"Problems: {', '.join(open_ones)}")
    states = buying_totals(job).items()
    bought = [f"{row['count']} {state} ({show_money(row['price'], job.settings.currency)})" for state, row in states]
    lines.append(f"Equipment: {', '.join(bought)}")
    due = [each for each in agenda(job, now, found, changed) if each.group in ("missing", "days", "packet")]
    due.sort(key=lambda each: (each.day is None, each.day))
    said = [f"{day_short(job, each.day) if each.day else '':8}{each.what}" for each in due]
    lines += _some("Due", said, max(LEAST_DUE, LINES - len(lines) - 3))
    lines.append(f"All of it: studbook status {file} --all")
    return [line if len(line) <= WIDTH else f"{line[: WIDTH - 1]}…" for line in lines]


def _apart(job: Job, now: Standing) -> list[str]:
    """What came up after close-in, by key; what was done outside, the first of it by name; what was taken off."""
    lines = []
    if now.found_after:
        lines.append(f"Found after close-in: {', '.join(each.key for each in now.found_after)}")
    if job.outside:
        more = f" + {len(job.outside) - 1} more" if len(job.outside) > 1 else ""
        lines.append(f"Outside of Studbook{more}: {outside_line(job.outside[0])}")
    if off := taken_off(job):
        lines.append(f"{len(off)} removed from the list")
    return lines


def _trade_line(one: TradeItems) -> str:
    """`Carpenter    ██░░░░░░░░  6 of 22 done, 16 open`."""
    done, total = one.done, len(one.items)
    return f"{trade_title(one.trade):12} {bar(done, total)}  {done} of {total} done, {total - done} open"


def _some(title: str, lines: Sequence[str], most: int) -> list[str]:
    """A title and the first of some lines, with the number of the others; nothing where there are none."""
    if not lines:
        return []
    more = [f"  and {len(lines) - most} more"] if len(lines) > most else []
    return [*([f"{title}:"] if title else []), *(f"  {line}" for line in lines[:most]), *more]
