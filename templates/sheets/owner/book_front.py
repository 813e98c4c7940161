"""The first pages of the owner's book: how to use it, what its tags and signs mean, what it lacks, and the page for the
next owner of the house."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.gate import Closing
from store.records.people import Contact
from store.records.whole import KINDS, Job
from store.records.wiring import Cable, Circuit
from store.rules.core.findings import findings
from store.rules.core.wording import date_text, local, plural
from store.rules.photo.places import photos_by_tag
from store.rules.wall.pieces import in_use
from templates.sheets.owner.book_pictures import Shown
from templates.sheets.owner.panel_pages import PanelPage

MOST_TAGS = 24
"""Tags that are named one by one in a line."""
TAGGED = ("wall", "opening", "equipment", "box", "circuit", "cable", "raceway", "panel", "photo", "contact")
SEVERITY = {"stop": "Stop", "fix": "Fix", "look": "Check"}


def how_to(job: Job) -> tuple[str, ...]:
    """How the book is used, in the order of work."""
    said = (
        "Read the tag: a letter and a number on the cable, the box, the panel and the drawing.",
        "Find the tag in the drawing or in the tables, and see through which access panel you get to it.",
        "Turn to the page of that panel. Turn off the breakers it lists, tag them and test that the wires are dead.",
        "Follow the steps of the page. Take a photo before you change anything.",
        "Afterwards write the visit down: in the program, or on the card inside the panel.",
        "A line that says “not entered” is a gap, not a promise that there is nothing.",
    )
    return tuple(local(job, each) for each in said)


def key_to_tags(job: Job) -> tuple[tuple[str, str], ...]:
    """The letters of the tags that this job has, with what each stands for."""
    return tuple((KINDS[kind].letter, KINDS[kind].one) for kind in TAGGED if job.tables.get(kind))


def missing(job: Job, pictures: Mapping[str, Shown], pages: Iterable[PanelPage]) -> tuple[str, ...]:
    """What the book has no answer to, a line each."""
    return tuple(local(job, each) for each in _missing(job, pictures, pages))


def _missing(job: Job, pictures: Mapping[str, Shown], pages: Iterable[PanelPage]) -> Iterator[str]:
    one, photos = job.settings, photos_by_tag(job)
    papers = [("the address", one.address), ("the policy no.", one.policy)]
    papers += [("the permit no.", one.permit_no)] if one.permit == "needed" else []
    if blank := [name for name, value in papers if not value]:
        yield f"Not entered: {', '.join(blank)}"
    circuits = [tag for tag, each in job.of(Circuit).items() if not each.slot]
    yield from _line("No breaker number", circuits)
    gear = {tag: each for tag, each in job.of(Equipment).items() if in_use(each)}
    yield from _line("No manufacturer or model", [tag for tag, each in gear.items() if not (each.maker and each.model)])
    yield from _line("No serial no.", [tag for tag, each in gear.items() if not each.serial])
    yield from _line("No manual", [tag for tag, each in gear.items() if not each.manual])
    yield from _line("No photo of the open wall", [each.card.tag for each in pages if not each.photos])
    cables = [tag for tag, each in job.of(Cable).items() if in_use(each) and each.in_wall]
    yield from _line("No photo of the cable in the wall", [tag for tag in cables if tag not in photos
                                                           and not _shown_by_proof(job, tag)])  # fmt: skip
    tested = [tag for tag in cables if f"{tag}/tested" not in job.of(Closing)]
    yield from _line("No test entered", tested)
    for each in pictures.values():
        if not each.uri:
            yield f"Photo {each.tag} is not in the book: {each.why}"


def _shown_by_proof(job: Job, tag: str) -> bool:
    closing = job.of(Closing).get(f"{tag}/photographed")
    return closing is not None and bool(closing.pictures)


def _line(what: str, tags: list[str]) -> Iterator[str]:
    if tags:
        more = f" and {len(tags) - MOST_TAGS} more" if len(tags) > MOST_TAGS else ""
        yield f"{what}: {' '.join(tags[:MOST_TAGS])}{more}"


def next_owner(job: Job) -> tuple[tuple[str, str], ...]:
    """What whoever lives in the house next has to know of the wall: a name and its words each."""
    return tuple((local(job, name), words) for name, words in _next_owner(job) if words)


def _next_owner(job: Job) -> Iterator[tuple[str, str]]:
    one = job.settings
    yield "The house", one.address or "address not entered"
    panels = ", ".join(f"{tag} {each.name}" for tag, each in job.of(Panel).items())
    yield "Access panels", panels or "none entered"
    yield (
        "Keep them free",
        "Do not paint, paper or build over an access panel: what is behind it has to stay reachable.",
    )
    yield (
        "Before you drill or screw",
        ("Look at the wall drawing for wires, pipes and raceways. Keep a hand's width away on each side."),
    )
    breakers = ", ".join(
        f"{each.slot or 'no number'}: {each.name}" for _, each in sorted(job.of(Circuit).items(), key=_slot)
    )
    yield "Breakers", breakers or "none entered"
    yield "Permit", one.permit_no or {"needed": "needed, no number entered", "unknown": "not known"}.get(one.permit, "")
    yield "Inspections", "; ".join(_inspections(job)) or "none entered"
    people = [
        f"{each.name} ({each.trade}){f', {each.phone}' if each.phone else ''}"
        for each in job.of(Contact).values() if each.state == "done" or each.trade in ("electrician", "inspector")
    ]  # fmt: skip
    yield "Who to call", "; ".join(people)
    running = [
        f"{tag} {each.name} until {date_text(job, each.warranty)}"
        for tag, each in job.of(Equipment).items()
        if each.warranty is not None and each.warranty >= job.today and in_use(each)
    ]
    yield "Warranties still running", "; ".join(running)
    left = [each for each in findings(job) if each.severity != "look" and not each.answered]
    about = ", ".join(dict.fromkeys(tag for each in left for tag in each.tags))
    yield "Open problems", f"{plural(len(left), 'problem')}, about {about}" if left else ""
    yield "You also get", "this book, the job's file with its folder of photos, the manuals, and the keys to the doors."


def _slot(item: tuple[str, Circuit]) -> tuple[int, str]:
    slot = item[1].slot
    return (int(slot) if slot.isdecimal() else 10**6, slot)


def _inspections(job: Job) -> Iterator[str]:
    for each in job.of(Closing).values():
        if each.proof == "inspection" and each.outcome == "closed":
            day = date_text(job, each.inspected or each.date)
            yield f"{day}, {each.office or each.by}, {each.reference or 'no reference'}"
