"""One page for each access panel: a photo of the open wall, what is behind, the breaker first, the steps, the parts."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

import msgspec

from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.whole import Job
from store.rules.about.record import photos_about
from store.rules.access.panel_contents import panel_contents
from store.rules.core.wording import listed, local
from store.rules.wall.pieces import in_use
from templates.sheets.owner.book_pictures import Shown
from templates.sheets.owner.panel_cards import Card, cards

MOST_PHOTOS = 2
"""Large photos on the page of a panel; the others are named, and stand with the photos."""
MOST_MM, LEAST_MM = 70, 36
"""How high a large photo is on a page, and how small it is made so that the rest stays on the page."""
BESIDE_PHOTOS, MM_A_LINE = 11, 5
"""Lines under photos of full height that go on a page, and the height of one."""
BLANK = "not entered"
_WEB = re.compile(r"https?://[^\s<>\"']+", re.IGNORECASE)


class Part(msgspec.Struct, frozen=True):
    """A part that is got at through the panel."""

    tag: str
    name: str
    maker: str
    model: str
    serial: str
    manual: str
    link: str
    """The manual as an address to follow; empty where it is a drawer."""


class PanelPage(msgspec.Struct, frozen=True):
    """The page of one panel."""

    card: Card
    photos: tuple[Shown, ...]
    others: tuple[str, ...]
    """Tags of photos that stand with the photos at the end."""
    steps: tuple[str, ...]
    parts: tuple[Part, ...]
    no_photo: str
    """Why there is no picture on the page; empty where there is one."""

    @property
    def photo_mm(self) -> int:
        """How high its pictures may be, so that what is under them stays on the page."""
        card = self.card
        lines = (
            len(self.steps)
            + len(card.things)
            + 2 * len(self.parts)
            + max(1, len(card.log))
            + 2 * bool(self.parts)
            + bool(card.holds)
        )
        return max(LEAST_MM, MOST_MM - MM_A_LINE * max(0, lines - BESIDE_PHOTOS))


def panel_pages(job: Job, pictures: Mapping[str, Shown]) -> list[PanelPage]:
    """The pages of all panels. A picture stands on the page of the first panel that it belongs to."""
    used: set[str] = set()
    made = []
    for card in cards(job):
        tags = _photos(job, card.tag)
        large = [pictures[tag] for tag in tags if pictures[tag].uri and tag not in used][:MOST_PHOTOS]
        used.update(each.tag for each in large)
        others = tuple(tag for tag in tags if tag not in {each.tag for each in large})
        lost = [f"{tag}: {pictures[tag].why}" for tag in tags if not pictures[tag].uri]
        why = "" if large or others else "No photo of the open wall. Take one before the wall is covered, or at the "
        why = f"{why}next visit." if why else ""
        made.append(PanelPage(card, tuple(large), others, tuple(_steps(job, card)), tuple(_parts(job, card)),
                              "; ".join(lost) if lost and not large else why))  # fmt: skip
    return made


def _photos(job: Job, panel: str) -> list[str]:
    """The photos of a panel: its own first, then those of what is behind it."""
    things = (panel, *panel_contents(job)[panel].all)
    return list(dict.fromkeys(photo.tag for each in things for photo in photos_about(job, each)))


def _steps(job: Job, card: Card) -> Iterator[str]:
    """What to do, in the order of work."""
    if card.off or card.near:
        yield local(job, "Turn off every breaker listed above. Tag it and test that the wires are dead.")
    else:
        yield local(job, "No breaker is entered here. That does not mean no power: test before you touch a wire.")
    if card.first:
        yield f"Take out first: {listed(card.first)}."
    if card.blocked:
        yield card.blocked
    yield card.opens
    yield "Find the tag on the cable or box, and compare it with the list on this page before you unplug anything."
    yield "When you are done: take a photo, close the panel, and write the visit in its log: why, what you changed."


def _parts(job: Job, card: Card) -> Iterator[Part]:
    panel = job.of(Panel)[card.tag]
    tags = [tag for tag, _ in card.things if tag in job.of(Equipment)]
    tags += [each for each in (str(panel.part), *_served(job, card.tag)) if each in job.of(Equipment)]
    for tag in dict.fromkeys(tags):
        one = job.of(Equipment)[tag]
        if in_use(one):
            yield Part(tag, one.name, one.maker or BLANK, one.model or BLANK, one.serial or BLANK,
                       one.manual or BLANK, link_of(one.manual))  # fmt: skip


def _served(job: Job, panel: str) -> list[str]:
    """Equipment that says it is reached through the panel."""
    return [tag for tag, one in job.of(Equipment).items() if one.reached == panel]


def link_of(manual: str) -> str:
    """A manual as a web address, where it is one."""
    found = _WEB.fullmatch(manual.strip())
    return found[0] if found else ""
