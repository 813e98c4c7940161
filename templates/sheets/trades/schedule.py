"""The schedule on paper: steps over the weeks as bars (SVG and plain text), their dates, orders, calls."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date, timedelta

from store.measure.dates import echo_date, short_date
from store.measure.text import clean
from store.records.equipment import Equipment
from store.records.people import Contact, Step
from store.records.whole import Job
from store.rules.buying.order_by import orders
from store.rules.core.wording import date_text, day_short, plural
from store.rules.schedule.bars import LEGEND, Bars, bars, text_bar, week_line
from store.rules.schedule.calendar import SLIP_DAYS, calendar, slip_words, slips
from store.trade.schedule.critical_path import Dated
from templates.sheets.layout.hatches import INK, rising
from templates.sheets.layout.marks import line_at, safe, text_at
from templates.sheets.layout.page import Block, Heading, Page, Picture, Table, Words

ROW_PX, LEFT_PX, TOP_PX, WIDE_PX = 24.0, 250.0, 56.0, 700.0
WEEK_PX = 44.0
"""Room that the day of a week takes."""


def schedule_page(job: Job) -> Page:
    """The schedule as a page."""
    return Page("Schedule", job.settings.name, echo_date(job.today, job.manner.day_first), tuple(_blocks(job)))


def _blocks(job: Job) -> Iterator[Block]:
    found = calendar(job)
    if found.wrong:
        yield Words((f"No date can be given: {found.wrong}.",), "banner")
        return
    if not found.schedule.steps:
        yield Words(("No step is on the list yet.",))
        return
    chain = ", ".join(_link(found.dated[key]) for key in found.schedule.chain)
    yield Words(
        (f"The job ends on {echo_date(found.schedule.finish, job.manner.day_first)}. What decides it: {chain}.",)
    )
    yield Picture(schedule_svg(job), "The bars are in the HTML and SVG sheets.")
    yield Heading("Steps")
    rows = tuple(_row(job, one) for one in found.schedule.steps)
    titles = ("tag", "step", "who", "start", "finish", "latest", "float", "state")
    yield Table(titles, rows, frozenset({6}))
    if lines := late_lines(job):
        yield Heading(f"If a step takes {plural(SLIP_DAYS, 'working day')} longer")
        yield Words(tuple(lines), "list")
    if rows := tuple(_order_rows(job)):
        yield Heading("To order, and on its way")
        yield Table(("tag", "what", "needed on", "order by", "expected"), rows)


def _link(one: Dated) -> str:
    """A step of the chain: one that may use days off, like a weekend before the next, has those to spare."""
    return one.key if one.done or one.total_float <= 0 else f"{one.key} ({plural(one.total_float, 'day')} float)"


def _row(job: Job, one: Dated) -> tuple[str, ...]:
    step = job.of(Step)[one.key]
    late = "" if one.done else day_short(job, one.late_finish)
    spare = "" if one.done else str(one.total_float)
    start, finish = (day_short(job, each) for each in (one.start, one.finish))
    contact = job.of(Contact).get(step.who)
    who = f"{contact.tag} {contact.name}" if contact else "no name entered"
    return one.key, step.what, who, start, finish, late, spare, state_of(job, one)


def state_of(job: Job, one: Dated) -> str:
    """How a step stands, in words."""
    step = job.of(Step)[one.key]
    if one.done:
        return "done"
    if one.misses_booking_days:
        return "booking to change"
    if step.began is not None:
        return "begun"
    if step.booked is not None:
        return "booked"
    return "decides the end" if one.critical else "planned"


def late_lines(job: Job) -> list[str]:
    """What a slip of each step that is not done moves: the sum, the new days, the bookings to change, the end."""
    found = []
    for tag, slip in slips(job).items():
        first, *lines = slip_words(job, tag, SLIP_DAYS)
        to = [f"{each.key} moves to {date_text(job, each.new_start)}" for each in slip.moved]
        bookings = [line for line in lines[:-1] if line.startswith("Booking")]
        found.append(" ".join([first, *([f"{'; '.join(to)}."] if to else []), *bookings, lines[-1]]))
    return found


def _order_rows(job: Job) -> Iterator[tuple[str, ...]]:
    things = job.of(Equipment)
    for tag, one in sorted(orders(job).items(), key=lambda each: each[1].order_by or each[1].needed_on):
        order_by = "ordered" if things[tag].state == "ordered" else "no lead days entered"
        if one.order_by is not None:
            order_by = date_text(job, one.order_by) + (" - TOO LATE" if one.order_by < job.today else "")
        expected = date_text(job, one.expected) if one.expected else ""
        needed = f"{date_text(job, one.needed_on)}{f' for {one.step}' if one.step else ''}"
        yield tag, things[tag].name, needed, order_by, f"{expected} - TOO LATE" if one.late_days else expected


def schedule_text(job: Job, width: int = 100) -> str:
    """The bars as plain text, one step a line, and the legend."""
    found = calendar(job)
    if found.wrong or not found.schedule.steps:
        return f"{found.wrong or 'No step is on the list yet.'}\n"
    room = max(24, width - 44)
    shape = bars(job, room)
    lines = [f"Schedule: {clean(job.settings.name)}", "", f"{'':44}{week_line(shape)}"]
    for one in found.schedule.steps:
        what = clean(job.of(Step)[one.key].what)
        lines.append(f"{one.key:5}{what[:26]:27}{date_text(job, one.start):>11} {text_bar(shape, one.key)}".rstrip())
    return "\n".join(
        [*lines, "", LEGEND, f"The job ends on {echo_date(found.schedule.finish, job.manner.day_first)}.", ""]
    )


def schedule_svg(job: Job) -> str:
    """The bars as one SVG file: a row a step, a line a week; done hatched, deciding black, the rest white."""
    found = calendar(job)
    steps = found.schedule.steps
    shape = bars(job, 1)
    total = max(1, (shape.last - shape.first).days + 1)
    scale = (WIDE_PX - LEFT_PX - 24) / total

    def x(day: date) -> float:
        return LEFT_PX + (day - shape.first).days * scale

    high = TOP_PX + ROW_PX * len(steps) + 44
    parts = list(_weeks(shape, x, TOP_PX + ROW_PX * len(steps), scale))
    for at, one in enumerate(steps):
        parts += _bar(job, one, TOP_PX + ROW_PX * at, x, scale)
    now = x(job.today)
    parts.append(line_at(now, TOP_PX - 8, now, TOP_PX + ROW_PX * len(steps), 1.5))
    parts.append(text_at(now, TOP_PX + ROW_PX * len(steps) + 12, "today", 10, "middle"))
    legend = "Black decides the end; white has float; hatched is done; dots are waiting; ◆ is booked."
    parts.append(text_at(24, high - 10, legend, 11))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDE_PX:.0f} {high:.0f}" width="{WIDE_PX:.0f}" '
        f'height="{high:.0f}" role="img"><title>Schedule of {safe(job.settings.name, 60)}</title>'
        f"<style>text {{ font-family: sans-serif; fill: {INK}; }}</style>"
        f'<rect width="100%" height="100%" fill="#fff"/>{"".join(parts)}</svg>\n'
    )


def _weeks(shape: Bars, x: Callable[[date], float], bottom: float, scale: float) -> Iterator[str]:
    every = 1 if 7 * scale >= WEEK_PX else 2 if 14 * scale >= WEEK_PX else 4
    day, count = shape.first, 0
    while day <= shape.last:
        yield line_at(x(day), TOP_PX - 8, x(day), bottom, 0.5, "#999")
        if count % every == 0 and x(day) + WEEK_PX < WIDE_PX:
            yield text_at(x(day) + 2, TOP_PX - 14, short_date(day, day, shape.day_first), 10)
        day, count = day + timedelta(days=7), count + 1


def _bar(job: Job, one: Dated, y: float, x: Callable[[date], float], scale: float) -> Iterator[str]:
    step = job.of(Step)[one.key]
    yield text_at(24, y + 15, one.key, 11, more=' font-weight="bold"')
    yield text_at(58, y + 15, step.what if len(step.what) <= 34 else step.what[:33] + "…", 11)
    fill = INK if one.critical and not one.done else "#fff"
    left, wide = x(one.start), max(2.0, ((one.finish - one.start).days + 1) * scale)
    yield f'<rect x="{left:.1f}" y="{y + 4:.1f}" width="{wide:.1f}" height="14" fill="{fill}" stroke="{INK}"/>'
    if one.done:
        lines = "".join(rising((left, y + 4, left + wide, y + 18), 6))
        yield f'<path d="{lines}" fill="none" stroke="{INK}" stroke-width="1"/>'
    if step.wait and not one.done:
        end = one.finish + timedelta(days=1)
        yield (
            f'<path d="M{x(end):.1f} {y + 11:.1f}H{x(one.ready):.1f}" stroke="{INK}" stroke-width="2" '
            'stroke-dasharray="2 3"/>'
        )
    if step.booked is not None and not one.done and step.booked >= one.start - timedelta(days=366):
        yield text_at(x(step.booked), y + 4, "◆", 11, "middle")
