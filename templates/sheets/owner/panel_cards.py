"""A card for the inside of each access panel: what is behind it, which breaker is off first, who opened it last."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from store.records.access import Panel
from store.records.whole import Job
from store.rules.about.record import photos_about
from store.rules.access.means import blocked_panels
from store.rules.access.panel_contents import panel_contents
from store.rules.access.steps import (
    in_front,
    log_by_panel,
    mains_in_reach,
    off_behind,
    open_text,
    photo_text,
    thing_text,
    visit_text,
)
from store.rules.core.cautions import MAINS
from store.rules.core.wording import date_text, named
from templates.sheets.layout.fill import filled
from templates.sheets.owner.code import code_svg, short_of

PROVE = (
    "Turn off the breaker, tag it and test that the wires are dead before you touch them. No breaker listed here "
    "does not mean no power."
)


class Card(msgspec.Struct, frozen=True):
    """One panel on paper."""

    tag: str
    name: str
    opens: str
    """How and where it is opened, in a sentence."""
    off: tuple[str, ...]
    near: str
    """Mains wiring that a hand may meet beside it."""
    first: tuple[str, ...]
    """What stands in front and is taken out before."""
    things: tuple[tuple[str, str], ...]
    """Label and words of each thing behind it."""
    holds: str
    blocked: str
    last: str
    log: tuple[str, ...]
    photos: tuple[str, ...]


def cards(job: Job, only: Sequence[str] = ()) -> list[Card]:
    """The card of every panel, or of those named."""
    return [_card(job, tag) for tag in job.of(Panel) if not only or tag in only]


def _card(job: Job, tag: str) -> Card:
    panel = job.of(Panel)[tag]
    log = tuple(visit_text(job, each) for each in log_by_panel(job).get(tag, ()))
    things = panel_contents(job)[tag].all
    photos = dict.fromkeys(each for one in (tag, *things) for each in photos_about(job, one))
    blocker = blocked_panels(job).get(tag, "")
    return Card(
        tag,
        panel.name,
        open_text(job, tag),
        off_behind(job, tag),
        mains_in_reach(job, tag),
        tuple(named(job, each) for each in in_front(job, tag)),
        tuple((each, thing_text(job, each)) for each in things),
        str(panel.holds),
        f"{named(job, blocker)} is fixed in front of it." if blocker else "",
        log[0] if log else "no visits yet",
        log,
        tuple(photo_text(each) for each in photos),
    )


def panel_cards_html(job: Job, only: Sequence[str] = ()) -> str:
    """The cards as one HTML page, to be printed, cut out and stuck inside the panels."""
    from markupsafe import Markup  # comes with the template engine, which is as late

    day, found = date_text(job, job.today), cards(job, only)
    codes = {card.tag: Markup(code_svg(short_of_card(job, card))) for card in found}
    return filled(
        "panel_cards.html.j2", job=job.settings.name, day=day, cards=found, codes=codes, caution=MAINS, prove=PROVE
    )


def short_of_card(job: Job, card: Card) -> str:
    """What the code on a card says."""
    tags = [tag for tag, _ in card.things]
    return short_of(card.tag, card.name, card.off, tags, job.settings.name, date_text(job, job.today))


def panel_cards_markdown(job: Job, only: Sequence[str] = ()) -> str:
    """The cards in Markdown."""
    return filled("panel_cards.md.j2", job=job.settings.name, cards=cards(job, only), caution=MAINS, prove=PROVE)
