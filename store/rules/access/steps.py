"""How to get at a thing years from now: what must be off, what is opened, what stands in the way, what is seen."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

import msgspec

from store.measure.length import Length, show_length
from store.records.access import Panel, Photo, Visit
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit, Raceway
from store.rules.access.means import Means, best_means, is_mains_box, needs_access
from store.rules.access.panel_contents import PanelContents, panel_contents
from store.rules.cable.kinds import is_power
from store.rules.cable.labels import ends_text
from store.rules.cable.raceways import insides
from store.rules.cable.routes import place_text, routes
from store.rules.core.keyed import by_key
from store.rules.core.memo import once
from store.rules.core.wording import date_text, listed, named, paired, said
from store.rules.fit.furniture import furniture_before
from store.rules.fit.in_front import standing_before
from store.rules.photo.places import photos_by_tag
from store.rules.power.plan import has_plug, power
from store.rules.wall.inside import inside_at, on_top_of
from store.rules.wall.layout import in_opening
from store.rules.wall.pieces import in_use
from store.rules.wall.places import ELSEWHERE

PROVE = "Turn off the breaker, tag it and test that the wires are dead before you touch anything."
MAINS_BESIDE = "Line voltage is behind it too"
FED = ("driver", "power supply", "strip")
"""Sorts of equipment that mains comes to, as long as nobody noted otherwise."""


class Reach(msgspec.Struct, frozen=True):
    """How one thing is reached; every text is ready to be read out."""

    tag: str
    off: tuple[str, ...]
    """Breakers that must be off first."""
    power: tuple[str, ...]
    """What else to know of power first: that it is unplugged, that mains wiring lies beside it."""
    open: tuple[str, ...]
    """What is opened, one for each end of a cable."""
    first: tuple[str, ...]
    """Tags of what stands in front and is taken out before."""
    see: tuple[str, ...]
    """What is then seen, a line each."""
    notes: tuple[str, ...]
    """What else to know: where the way does not count, photos, the last opening."""
    by: tuple[str, ...]
    """Tags of the panels and openings that are opened."""

    @property
    def lines(self) -> tuple[str, ...]:
        """All of it in the order of work."""
        off = [f"Off first: {listed(self.off)}. {PROVE}"] if self.off else []
        return (*off, *self.power, *self.open, *self._first, *self.see, *self.notes)

    @property
    def brief(self) -> tuple[str, ...]:
        """What is off first, what is opened, what comes out; for the head of a page."""
        off = [f"Off first: {listed(self.off)}."] if self.off else []
        return (*off, *self.power, *self.open, *self._first)

    @property
    def _first(self) -> tuple[str, ...]:
        return (f"Take out first: {listed(self.first)}.",) if self.first else ()


def reach(job: Job, tag: str) -> Reach:
    """How to get at a thing: a box, a cable, a raceway, a piece of equipment, a panel or an opening.

    Raises KeyError when there is no such tag.
    """
    record = job.get(tag)
    if record is None:
        raise KeyError(tag)
    places = list(dict.fromkeys(_places(job, record)))
    wires = isinstance(record, Cable | Raceway)
    ways = [(at, best_means(job, at, wires=wires)) for at in places]
    opened = [(at, way) for at, way in ways if way is not None]
    panels = [way.by for _, way in opened if way.kind == "panel"]
    if isinstance(record, Panel):
        panels = [tag]
    by = tuple(dict.fromkeys([*panels, *(way.by for _, way in opened if way.kind == "opening")]))
    own = _own_circuits(job, record)
    beside = [] if isinstance(record, Panel) else _off_beside(job, record, own, panels)
    return Reach(
        tag,
        off_behind(job, tag)
        if isinstance(record, Panel)
        else (*(breaker_text(job, each) for each in own), *_not_noted(unnoted_mains(job, [tag]))),
        (*_power(job, record), *_mains_beside(job, beside, panels)),
        tuple(_open_text(job, at, way, len(places) > 1) for at, way in ways if _told(record, way))
        or _open_panel(job, record),
        tuple(dict.fromkeys(each for panel in by for each in in_front(job, panel, tag))),
        tuple(line for panel in panels for line in _see(job, panel_contents(job)[panel])),
        tuple(_notes(job, tag, opened, panels)),
        by,
    )


def _own_circuits(job: Job, record: Record) -> list[str]:
    """What must be off for the thing itself; for a signal cable, nothing."""
    if not in_use(record) or (isinstance(record, Equipment) and has_plug(record)):
        return []  # it is gone, or unplugged instead
    return list(circuits_of(job, record.tag))


def _places(job: Job, record: Record) -> Iterator[str]:
    """The things at which it is got hold of: itself, or the ends of a cable or raceway; nothing for what is gone."""
    if not in_use(record):
        return
    if (isinstance(record, Cable) and not record.reached) or isinstance(record, Raceway):
        yield from (str(end) for end in (record.start, record.end) if end and best_means(job, end))
    elif isinstance(record, Box | Equipment | Cable):
        yield record.tag


@once
def circuits_of(job: Job, tag: str) -> tuple[str, ...]:
    """The circuits that bring mains to a thing, by the power plan."""
    record = job.get(tag)
    plan = power(job)
    if isinstance(record, Box) and is_mains_box(record):
        ends = [end for cable in plan.mains.get(tag, ()) for end in (str(cable.start), str(cable.end)) if end != tag]
        boxes = [record, *(job.of(Box)[end] for end in ends if end in job.of(Box))]
        return tuple(dict.fromkeys(str(box.circuit) for box in boxes if box.circuit))
    if isinstance(record, Equipment):
        feed = plan.feeds.get(tag)
        return circuits_of(job, feed.box) if feed is not None and feed.box else ()
    if isinstance(record, Cable):
        mains = any(record in plan.mains.get(end, ()) for end in (str(record.start), str(record.end)))
        ends = [str(end) for end in (record.start, record.end) if end]
        return tuple(dict.fromkeys(each for end in ends for each in circuits_of(job, end))) if mains else ()
    return ()


@once
def circuits_behind(job: Job, panel: str) -> tuple[str, ...]:
    """The circuits of everything behind a panel."""
    one = panel_contents(job).get(panel)
    tags = one.all if one is not None else ()
    return tuple(dict.fromkeys(each for tag in tags for each in circuits_of(job, tag)))


@once
def off_behind(job: Job, panel: str) -> tuple[str, ...]:
    """What must be off before a hand goes through a panel: breakers, and the mains with no circuit entered."""
    one = panel_contents(job).get(panel)
    unnoted = unnoted_mains(job, one.all if one is not None else ())
    return (*(breaker_text(job, each) for each in circuits_behind(job, panel)), *_not_noted(unnoted))


@once
def mains_in_reach(job: Job, panel: str) -> str:
    """Mains wiring that a hand may meet beside what is behind a panel, in a sentence; empty for none."""
    one = panel_contents(job).get(panel)
    if one is None:
        return ""
    known = set(circuits_behind(job, panel))
    others = {tag: [each for each in circuits_of(job, tag) if each not in known] for tag in one.near}
    others = {tag: circuits for tag, circuits in others.items() if circuits}
    told = []
    if others:
        breakers = dict.fromkeys(each for circuits in others.values() for each in circuits)
        told.append(f"{listed(list(others))}, on {listed([breaker_text(job, each) for each in breakers])}")
    if unnoted := unnoted_mains(job, one.near):
        told.append(f"{listed(unnoted)}, with no circuit entered")
    return f"Line voltage within a hand's reach: {'; '.join(told)}." if told else ""


def unnoted_mains(job: Job, tags: Iterable[str]) -> list[str]:
    """Those of some things that hold mains wiring, by what they are, while nobody noted on which circuit."""
    return [tag for tag in tags if _holds_mains(job, tag) and not circuits_of(job, tag)]


def _holds_mains(job: Job, tag: str) -> bool:
    record = job.get(tag)
    if isinstance(record, Box):
        return is_mains_box(record)
    if not isinstance(record, Equipment | Cable) or not in_use(record):
        return False
    if isinstance(record, Cable):
        return is_power(job, record)
    # What has a plug is unplugged instead.
    return record.power == "hard-wired" or (record.power == "unknown" and not has_plug(record) and record.what in FED)


def _not_noted(tags: list[str]) -> tuple[str, ...]:
    return (f"the circuit of {listed(tags)}: not entered, so have it traced and marked",) if tags else ()


@once
def breaker_text(job: Job, circuit: str) -> str:
    """`breaker 18 (C2 Media equipment, 20 A)`."""
    one = job.of(Circuit)[circuit]
    amps = f", {one.breaker:g} A" if one.breaker else ""
    if one.slot:
        return f"breaker {one.slot} ({circuit} {one.name}{amps})"
    return f"the breaker of {circuit} {one.name} (no number entered{amps})"


def _open_text(job: Job, at: str, way: Means | None, several: bool) -> str:
    head = f"At {named(job, at)}: " if several else ""
    if way is None:
        return f"{head}No access entered to {at}."
    if way.kind == "plate":
        return f"{head}{at} has its own plate at the face of the wall ({place_text(job, at)})."
    return head + open_text(job, way.by)


def _told(record: Record, way: Means | None) -> bool:
    """False for what stands free in the room: nothing has to be opened for it."""
    return way is not None or not isinstance(record, Equipment) or needs_access(record)


def _power(job: Job, record: Record) -> Iterator[str]:
    if isinstance(record, Cable | Equipment) and record.retired is not None:
        after = f"; {named(job, record.replaced_by)} replaced it" if record.replaced_by else ""
        yield f"{record.tag} was retired on {date_text(job, record.retired)}{after}."
    elif isinstance(record, Cable) and not circuits_of(job, record.tag) and not is_power(job, record):
        yield "It has no breaker of its own: switch off and unplug the devices at its ends first."
    elif isinstance(record, Equipment) and has_plug(record) and record.plug:
        on = listed([breaker_text(job, each) for each in circuits_of(job, record.tag)])
        yield f"Switch it off and unplug it at {named(job, record.plug)}" + (f", on {on}." if on else ".")


def _off_beside(job: Job, record: Record, own: list[str], panels: list[str]) -> list[str]:
    """What must be off for other things behind the panels that are opened."""
    circuits = dict.fromkeys(each for panel in panels for each in circuits_behind(job, panel) if each not in own)
    tags = dict.fromkeys(tag for panel in panels for tag in panel_contents(job)[panel].all if tag != record.tag)
    return [*(breaker_text(job, each) for each in circuits), *_not_noted(unnoted_mains(job, tags))]


def _mains_beside(job: Job, off: list[str], panels: list[str]) -> Iterator[str]:
    """The mains wiring of other things that a hand may meet on the way."""
    if off:
        yield f"{MAINS_BESIDE}: {listed(off)}. Turn those off too before you reach in."
    yield from (near for panel in panels if (near := mains_in_reach(job, panel)))


def _open_panel(job: Job, record: Record) -> tuple[str, ...]:
    if isinstance(record, Panel | Opening):
        return (open_text(job, record.tag),)
    if isinstance(record, Circuit):
        return (f"At the electrical panel: {breaker_text(job, record.tag)}.",)
    if isinstance(record, Cable | Raceway) and in_use(record):
        return ("No access entered.",)
    return ()


def open_text(job: Job, tag: str) -> str:
    """`Open A2 (Back of the receiver bay), magnets, 12" x 10" clear, at 12' 7" / 1' 10" on W1.`"""
    record = job.get(tag)
    open_front = isinstance(record, Opening) and record.door == "none"
    words = f"Go in through {named(job, tag)}, open in front" if open_front else f"Open {named(job, tag)}"
    if isinstance(record, Panel):
        size = "no clear size entered"
        if record.width is not None and record.height is not None:
            size = f"{paired(job, record.width.nm, record.height.nm)} clear"
        words += f": {record.opens}, {size}"
    elif isinstance(record, Opening) and record.door != "none":
        words += f": {record.door} door"
    if isinstance(record, Panel | Opening) and record.wall and record.x is not None and record.y is not None:
        metric = job.settings.metric
        if isinstance(record, Panel) and record.face in ELSEWHERE:
            return f"{words}; {_elsewhere(job, record)}."
        words += (
            f"; its lower left corner is {show_length(record.x, metric)} from the left and "
            f"{show_length(record.y, metric)} up on {record.wall}"
        )
    return f"{words}."


def _elsewhere(job: Job, panel: Panel) -> str:
    """Where a panel in a ceiling, a floor or the side of a cabinet is."""
    across, other = (said(job, each.nm) for each in (panel.x, panel.y) if each is not None)
    if panel.face in ("ceiling", "floor"):
        return f"in the {panel.face}, {across} from the left of {panel.wall} and {other} out from it"
    return f"in the {panel.face.removeprefix('cabinet ')} of {panel.on}, {across} from its back and {other} up"


def in_front(job: Job, by: str, tag: str = "") -> tuple[str, ...]:
    """What stands in front of a panel, or in an opening through which a thing is reached, and must come out."""
    if by in job.of(Panel):
        before = (*standing_before(job).get(by, ()), *furniture_before(job).get(by, ()))
        return tuple(each for each in before if each != tag)
    others = tuple(one for one in in_opening(job).get(by, ()) if one.tag != tag)
    mine = job.of(Equipment).get(tag)
    stands = inside_at(job, mine) if mine is not None and mine.opening == by else None
    if stands is None:
        return tuple(one.tag for one in others)
    # Of what is known to stand elsewhere in it, only what is on top of a piece holds it there.
    on_it = on_top_of(stands[0], tag)
    return tuple(one.tag for one in others if one.tag in on_it or inside_at(job, one) is None)


def _see(job: Job, one: PanelContents) -> Iterator[str]:
    tags = one.all
    if tags:
        yield f"Behind {one.panel} you see:"
        yield from (f"  {line}" for line in thing_lines(job, tags))
    if words := job.of(Panel)[one.panel].holds:
        yield f"  also: {words}"


def thing_lines(job: Job, tags: Iterable[str]) -> list[str]:
    """Each thing behind a panel on a line of its own: label, name, type, length, ends, room."""
    return [f"{tag}  {thing_text(job, tag)}" for tag in tags if job.get(tag) is not None]


def thing_text(job: Job, tag: str) -> str:
    """What a thing is, for a card: name, type, length, ends, breaker, room that is left."""
    record = job.get(tag)
    words = [str(getattr(record, "name", "") or getattr(record, "one", ""))]
    if isinstance(record, Cable):
        words += [record.type, *_run(job, record), ends_text(job, record)]
        words += ["spare"] if record.spare else []
    elif isinstance(record, Box):
        words += [record.what, *(breaker_text(job, each) for each in circuits_of(job, tag))]
    elif isinstance(record, Raceway):
        words += [f"{record.type} {record.size}".strip(), ends_text(job, record)]
        inside = insides(job).get(tag)
        words += [f"room for {inside.more} more like {inside.more_of}"] if inside and inside.bore_in else []
        words += ["pull string in it"] if record.string else ["no pull string entered"]
    elif isinstance(record, Equipment):
        words += [record.what, *(breaker_text(job, each) for each in circuits_of(job, tag))]
        words += [f"serial {record.serial}"] if record.serial else []
    return ", ".join(each for each in words if each)


def _run(job: Job, cable: Cable) -> list[str]:
    route = routes(job).get(cable.tag)
    if route is None or route.path is None:
        return []
    return [f"{show_length(Length(route.path), job.settings.metric)} along its route"]


@by_key
def log_by_panel(job: Job) -> Mapping[str, tuple[Visit, ...]]:
    """The openings of each panel, the newest first."""
    found: dict[str, list[Visit]] = {}
    for visit in sorted(job.of(Visit).values(), key=lambda each: each.date, reverse=True):
        found.setdefault(str(visit.panel), []).append(visit)
    return {tag: tuple(visits) for tag, visits in found.items()}


def photo_text(photo: Photo) -> str:
    """`F3 open-wall-2.jpg: left bay, tape in the picture`."""
    return f"{photo.tag} {photo.file}" + (f": {photo.shows}" if photo.shows else "")


def visit_text(job: Job, visit: Visit) -> str:
    """`Dec 4, 2026, Kim: to pull the cables; found ...; changed ...`."""
    words = [visit.why, f"found {visit.found}" if visit.found else "", f"changed {visit.changed}"]
    told = "; ".join(each for each in (*words[:2], words[2] if visit.changed else "") if each)
    return f"{date_text(job, visit.date)}, {visit.who}" + (f": {told}" if told else "")


def _notes(job: Job, tag: str, opened: list[tuple[str, Means]], panels: list[str]) -> Iterator[str]:
    for at, way in opened:
        if way.blocked_by:
            yield f"{named(job, way.blocked_by)} is fixed in front of {at}: it has to come out, as its manual says."
        elif way.too_far and way.far_nm is not None:
            yield f"On the plan {at} is {said(job, way.far_nm)} from {way.by}: farther than a hand reaches."
    for panel in panels:
        log = log_by_panel(job).get(panel, ())
        yield (f"Last visit to {panel}: {visit_text(job, log[0])}." if log else f"No visits to {panel} yet.")
    shown = dict.fromkeys(each for one in (tag, *panels) for each in photos_by_tag(job).get(one, ()))
    if shown:
        yield "Photos: " + "; ".join(photo_text(photo) for photo in shown)
