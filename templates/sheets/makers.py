"""Thin hands between the catalogue and the modules that make the sheets: each imports just what its sheet needs."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, cast

from msgspec import structs

from store.measure.dates import echo_date
from store.measure.errors import BadValue, quoted
from store.records.people import Trade
from store.records.wall import Wall
from store.records.whole import Job
from templates.sheets.catalogue import DRAWING, PACKET, PAGES, USUAL_PAGE, Context
from templates.sheets.layout.page import Page, Picture, html, markdown

if TYPE_CHECKING:
    from store.rules.drawing.shapes import Scene
    from templates.sheets.drawing.whole import Ask
    from templates.sheets.wall.label_papers import Paper

USUAL_PAPER = {True: "a4", False: "letter"}
"""Beginning of the name of the usual label paper, by metric or not."""


def _packet(job: Job, context: Context) -> Page:
    from templates.sheets.trades.packet import packet_page

    return packet_page(job, cast(Trade, context.sheet.removeprefix(PACKET)), context.entries)


def packet_html(job: Job, context: Context) -> str:
    """The packet of the trade that the sheet's name ends in."""
    return html(_packet(job, context))


def packet_md(job: Job, context: Context) -> str:
    """The packet in Markdown."""
    return markdown(_packet(job, context))


def schedule_html(job: Job, context: Context) -> str:
    """The schedule as a page."""
    from templates.sheets.trades.schedule import schedule_page

    return html(schedule_page(job))


def schedule_md(job: Job, context: Context) -> str:
    """The schedule in Markdown."""
    from templates.sheets.trades.schedule import schedule_page

    return markdown(schedule_page(job))


def schedule_svg(job: Job, context: Context) -> str:
    """The bars."""
    from templates.sheets.trades import schedule

    return schedule.schedule_svg(job)


def schedule_txt(job: Job, context: Context) -> str:
    """The bars in letters."""
    from templates.sheets.trades.schedule import schedule_text

    return schedule_text(job)


def calendar_ics(job: Job, context: Context) -> str:
    """The calendar file."""
    from templates.sheets.trades import calendar_ics as calendar

    return calendar.calendar_ics(job, context.sign, context.entries)


def checklist_html(job: Job, context: Context) -> str:
    """The checks for the wall."""
    from templates.sheets.trades.checklist import checklist_page

    return html(checklist_page(job))


def checklist_md(job: Job, context: Context) -> str:
    """The checks in Markdown."""
    from templates.sheets.trades.checklist import checklist_page

    return markdown(checklist_page(job))


def contacts_html(job: Job, context: Context) -> str:
    """The contacts as a page."""
    from templates.sheets.trades.people import contacts_page

    return html(contacts_page(job))


def contacts_md(job: Job, context: Context) -> str:
    """The contacts in Markdown."""
    from templates.sheets.trades.people import contacts_page

    return markdown(contacts_page(job))


def money_html(job: Job, context: Context) -> str:
    """The money as a page."""
    from templates.sheets.owner.money import money_page

    return html(money_page(job))


def money_md(job: Job, context: Context) -> str:
    """The money in Markdown."""
    from templates.sheets.owner.money import money_page

    return markdown(money_page(job))


def money_csv(job: Job, context: Context) -> str:
    """The money for a spreadsheet."""
    from templates.sheets.owner import money

    return money.money_csv(job)


def drawing_svg(job: Job, context: Context) -> str:
    """The elevation of one wall."""
    from store.rules.drawing.elevation import scene
    from templates.sheets.layout.elevation import svg

    return svg(scene(job, _wall(job, context)), job.settings.metric)


def drawing_html(job: Job, context: Context) -> str:
    """The wall that is asked for, or every wall, as a sheet of paper each: what is smaller is not read on a site."""
    from templates.sheets.drawing.whole import Ask, document

    return document(job, Ask(paper=context.paper, scale=context.scale, wall=context.wall, trade="general"))


def cuts_svg(job: Job, context: Context) -> str:
    """One wall cut through the most things: level, or upright for the sheet `section`."""
    from templates.sheets.layout.elevation import svg

    return svg(next(_cuts(job, context, _wall(job, context))), job.settings.metric)


def cuts_html(job: Job, context: Context) -> str:
    """The cuts of the wall that is asked for, or of every wall, which show each thing at least once: a page each, the
    way round that it is drawn largest."""
    from templates.sheets.layout.elevation import svg

    upright = context.sheet == "section"
    blocks = [
        Picture(svg(each, job.settings.metric), "", "upright" if upright else "lying")
        for tag in ([_wall(job, context)] if context.wall else job.of(Wall))
        for each in _cuts(job, context, tag)
    ]
    if not blocks:
        raise BadValue("no wall to draw yet. Add one.")
    day = echo_date(job.today, job.manner.day_first)
    paper = "" if upright else PAGES.get(context.paper.lower() or USUAL_PAGE[job.settings.metric], "")
    return html(Page("Sections" if upright else "From above", job.settings.name, day, tuple(blocks), lying=paper))


def _cuts(job: Job, context: Context, wall: str) -> Iterator[Scene]:
    from store.rules.drawing.cuts import best_cuts, plan, section

    upright = context.sheet == "section"
    for at in best_cuts(job, wall, upright=upright):
        yield section(job, wall, at) if upright else plan(job, wall, at)


def sheets_html(job: Job, context: Context) -> str:
    """The drawing sheets of all trades, or of the one that the sheet's name ends in: a wall a page."""
    from templates.sheets.drawing.whole import document

    return document(job, _asked(context))


def sheets_svg(job: Job, context: Context) -> str:
    """The first drawing sheet of one wall."""
    from templates.sheets.drawing.whole import pages

    asked = _asked(context)
    return pages(job, structs.replace(asked, wall=_wall(job, context)))[0]


def sheets_dxf(job: Job, context: Context) -> str:
    """One wall, true size: all its layers, or what the drawing of the trade shows that the sheet's name ends in."""
    from templates.sheets.drawing.dxf import dxf_of

    return dxf_of(job, _wall(job, context), context.sheet.removeprefix(DRAWING))


def _asked(context: Context) -> Ask:
    from templates.sheets.drawing.whole import Ask

    part = context.sheet.removeprefix(DRAWING)
    return Ask(
        paper=context.paper,
        scale=context.scale,
        wall=context.wall,
        trade="" if part == "sheets" else part,
        changes=context.entries,
    )


def _wall(job: Job, context: Context) -> str:
    """The wall that is asked for, or the first. Raises BadValue when there is none."""
    tag = context.wall or next(iter(job.of(Wall)), "")
    if tag not in job.of(Wall):
        raise BadValue(f"no wall {tag} in this job. Choose one of its walls." if tag else "no wall yet. Add one.")
    return tag


def _walls(job: Job, context: Context) -> tuple[str, ...]:
    """The wall that is asked for, or every wall. Raises BadValue when there is none."""
    first = _wall(job, context)
    return (first,) if context.wall else tuple(job.of(Wall))


def measuring_html(job: Job, context: Context) -> str:
    """The sheet to measure by."""
    from templates.sheets.wall.measuring import measuring_page

    return html(measuring_page(job))


def measuring_md(job: Job, context: Context) -> str:
    """The sheet to measure by, in Markdown."""
    from templates.sheets.wall.measuring import measuring_page

    return markdown(measuring_page(job))


def tape_html(job: Job, context: Context) -> str:
    """The tape sheet of the wall that is asked for, or of every wall."""
    from store.rules.core.wording import date_text
    from store.rules.drawing.tape_marks import tape_sheet
    from templates.sheets.wall import tape

    sheets = [(tape_sheet(job, each), _drawn_for(job, "mock-up", each)) for each in _walls(job, context)]
    return tape.tape_pages(sheets, date_text(job, job.today))


def _drawn_for(job: Job, trade: str, wall: str = "") -> str:
    """The drawing pages of a wall, or of every wall, to be bound into another sheet; empty for none."""
    from templates.sheets.drawing.paper import sheet_named
    from templates.sheets.drawing.whole import Ask, pages
    from templates.sheets.layout.lying import bound_in

    paper = sheet_named("", job.settings.metric)
    try:
        found = pages(job, Ask(trade=trade, wall=wall))
    except BadValue:
        return ""
    return bound_in(found, paper.wide, paper.high)


def tape_md(job: Job, context: Context) -> str:
    """The tape sheet in Markdown."""
    from store.rules.drawing.tape_marks import tape_sheet
    from templates.sheets.wall.tape import tape_markdown

    return "\n".join(tape_markdown(tape_sheet(job, each)) for each in _walls(job, context))


def electrician_html(job: Job, context: Context) -> str:
    """Boxes, circuits and loads."""
    from templates.sheets.trades import electrician

    return electrician.electrician_html(job)


def electrician_md(job: Job, context: Context) -> str:
    """Boxes, circuits and loads in Markdown."""
    from templates.sheets.trades.electrician import electrician_markdown

    return electrician_markdown(job)


def buying_html(job: Job, context: Context) -> str:
    """The buying list, with a drawing of where the things go."""
    from templates.sheets.owner import buying

    return buying.buying_html(job, _drawn_for(job, "places"))


def buying_md(job: Job, context: Context) -> str:
    """The buying list in Markdown."""
    from templates.sheets.owner.buying import buying_markdown

    return buying_markdown(job)


def buying_csv(job: Job, context: Context) -> str:
    """The buying list for a spreadsheet."""
    from templates.sheets.owner import buying

    return buying.buying_csv(job)


def labels_html(job: Job, context: Context) -> str:
    """Labels on paper."""
    from store.rules.cable.labels import labels
    from store.rules.cable.lengths import needs, thickness_in
    from templates.sheets.wall import labels as sheet

    paper = _label_paper(job, context)
    wide = {tag: thickness_in(need) for tag, need in needs(job).items()}
    thick = [tag for tag, inches in wide.items() if inches is not None and sheet.too_thick(paper, inches * 25.4)]
    return sheet.labels_html(labels(job), paper, skip=context.skip, thick=thick, nudge=sheet.nudged(context.nudge))


def labels_pdf(job: Job, context: Context) -> str:
    """The page that the PDF is made of: without the edges of the labels, which no style sheet hides there."""
    from templates.sheets.wall.labels import without_edges

    return without_edges(labels_html(job, context))


def labels_test_html(job: Job, context: Context) -> str:
    """The test print for a label paper."""
    from templates.sheets.wall import labels as sheet

    return sheet.trial_html(_label_paper(job, context), sheet.nudged(context.nudge))


def _label_paper(job: Job, context: Context) -> Paper:
    """The label paper that is asked for, else that of the job. Raises BadValue."""
    from templates.sheets.wall.label_papers import PAPERS

    usual = next(name for name in PAPERS if name.startswith(USUAL_PAPER[job.settings.metric]))
    name = context.paper or {"usual": usual}.get(job.settings.label_paper, job.settings.label_paper)
    if name not in PAPERS:
        raise BadValue(f"no label paper {quoted(name)}. There are: {', '.join(PAPERS)}")
    return PAPERS[name]


def labels_txt(job: Job, context: Context) -> str:
    """Labels as lines."""
    from store.rules.cable.labels import labels
    from templates.sheets.wall.labels import labels_text

    return labels_text(labels(job))


def signal_html(job: Job, context: Context) -> str:
    """The signal chain."""
    from templates.sheets.owner import signal_chain

    return signal_chain.signal_html(job)


def signal_svg(job: Job, context: Context) -> str:
    """The signal chain as a picture."""
    from templates.sheets.owner import signal_chain

    return signal_chain.signal_svg(job)


def signal_txt(job: Job, context: Context) -> str:
    """The signal chain in letters."""
    from templates.sheets.owner.signal_chain import signal_text

    return signal_text(job)


def cards_html(job: Job, context: Context) -> str:
    """Cards for the access panels."""
    from templates.sheets.owner.panel_cards import panel_cards_html

    return panel_cards_html(job)


def cards_md(job: Job, context: Context) -> str:
    """Cards for the access panels in Markdown."""
    from templates.sheets.owner.panel_cards import panel_cards_markdown

    return panel_cards_markdown(job)


def book_html(job: Job, context: Context) -> str:
    """The owner's book."""
    from templates.sheets.owner.owners_book import owners_book_html

    return owners_book_html(job, context.folder)


def book_md(job: Job, context: Context) -> str:
    """The owner's book in Markdown."""
    from templates.sheets.owner.owners_book import owners_book_markdown

    return owners_book_markdown(job)
