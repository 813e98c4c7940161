"""The tables of the owner's book, each as headings and rows of plain text."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

import msgspec

from store.measure.length import Length, show_length
from store.measure.money import show_money
from store.records.equipment import Equipment
from store.records.field import Day
from store.records.gate import Closing, Passage
from store.records.inside import ShelfBoard
from store.records.people import Contact, Handoff, Step, Wish
from store.records.wall import BuildOut, Opening, Wall, Zone
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit, Raceway
from store.rules.access.means import best_means
from store.rules.access.steps import circuits_of
from store.rules.cable.labels import end_text
from store.rules.cable.raceways import insides
from store.rules.cable.routes import place_text, routes
from store.rules.core.checks import rough_in
from store.rules.core.findings import accepted_line, findings
from store.rules.core.wording import date_text, local, named, plural, sized
from store.rules.gate.mock_up import AGREED
from store.rules.power.plan import power
from store.rules.service.upgrades import ready_text, upgrades
from store.rules.wall.inside import insides as opened_up
from store.rules.wall.pieces import in_use
from store.rules.wall.readings import sizes

FINISH_WORDS = re.compile(r"paint|colou?r|batch|stain|lacquer|varnish|veneer|oil|grout|sheen|wallpaper", re.IGNORECASE)
"""Words of a note that speaks of what the surface is finished with."""


SEVERITY = {"stop": "Stop", "fix": "Fix", "look": "Check"}
MOST_WIDE = 12
PAGE_WIDE, PADDING = 100, 3
"""Characters of a table's type that go across an upright page, letter or A4, and what a column has beside its words."""
"""Characters of a word that a column of a table is kept wide enough for; a longer word is broken."""


class Section(msgspec.Struct, frozen=True):
    """One table with its heading."""

    key: str
    title: str
    about: str
    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]

    @property
    def widths(self) -> tuple[int, ...]:
        """The least width of each column, characters: its longest word, as far as there is room for that."""
        columns = zip(self.headings, *self.rows, strict=True)
        longest = [max(map(len, " ".join({*each}).split()), default=0) for each in columns]
        most = MOST_WIDE
        while most > 1 and sum(min(each, most) + PADDING for each in longest) > PAGE_WIDE:
            most -= 1
        return tuple(min(each, most) for each in longest)


def sections(job: Job) -> list[Section]:
    """Every table that has rows."""
    made = [
        _section("breakers", "Breakers and circuits", "As on the directory of the electrical panel.", _circuits(job)),
        _section("equipment", "Equipment", "Serials and warranties, for service and for the insurance.", _gear(job)),
        _section("parts", "Parts and manuals", "As on the nameplates.", _parts(job)),
        _section(
            "service",
            "Days to come",
            "What needs service, and what expires.",
            _days(job),
        ),
        _section("cables", "Cables", "The tag is on both ends.", _cables(job)),
        _section("raceways", "Raceways", "What lets a cable be changed without opening the wall.", _raceways(job)),
        _section(
            "boxes", "Boxes", "Places are to the center, from the left corner and the finished floor.", _boxes(job)
        ),
        _section("framing", "Studs and openings", "On the plan; a tape measure has the last word.", _framing(job)),
        _section("finishes", "Materials, colors, batches", "As entered with each thing.", _finishes(job)),
        _section("people", "Who did what", "", _people(job)),
        _section("inspected", "Signed off before the wall was covered", "", _inspected(job)),
        _section("stages", "Stages", "", _stages(job)),
        _section("wishes", "Wishes", "What is open, and how far the wall is ready for it.", _wishes(job)),
        _section("open", "Problems, open and accepted", "", _findings(job)),
        _section("retired", "No longer in use", "Kept, so that an old label is still understood.", _retired(job)),
    ]
    return [_said(job, each) for each in made if each.rows]


Rows = tuple[Sequence[str], Iterable[Sequence[str]]]


def _section(key: str, title: str, about: str, table: Rows) -> Section:
    headings, rows = table
    return Section(key, title, about, tuple(headings), tuple(tuple(row) for row in rows))


def _said(job: Job, one: Section) -> Section:
    """Its own words in those of the job's region."""
    return Section(
        one.key,
        local(job, one.title),
        local(job, one.about),
        tuple(local(job, each) for each in one.headings),
        one.rows,
    )


def _day(job: Job, day: Day | None) -> str:
    return date_text(job, day) if day else ""


def _length(job: Job, length: Length | None) -> str:
    return show_length(length, job.settings.metric) if length is not None else ""


def _circuits(job: Job) -> Rows:
    return ("breaker", "tag", "circuit", "amps", "wire", "boxes", "loads", "protection"), (
        (
            one.slot, tag, one.name, f"{one.breaker:g} A" if one.breaker else "", one.conductor,
            ", ".join(power(job).circuits[tag].boxes),
            ", ".join(named(job, each.name) for each in power(job).circuits[tag].loads),
            ", ".join(word for word, so in (("AFCI", one.afci), ("GFCI", one.gfci)) if so),
        )
        for tag, one in job.of(Circuit).items()
    )  # fmt: skip


def _gear(job: Job) -> Rows:
    return ("tag", "what", "in", "access through", "breaker", "serial no.", "warranty ends", "cost", "supplier"), (
        (
            tag, one.name, str(one.opening), _way(job, tag), _breakers(job, tag),
            one.serial, _day(job, one.warranty), _cost(job, one), one.supplier,
        )
        for tag, one in job.of(Equipment).items()
        if in_use(one)
    )  # fmt: skip


def _parts(job: Job) -> Rows:
    return ("tag", "part", "manufacturer", "model", "serial no.", "manual"), (
        (tag, one.name, one.maker, one.model, one.serial, one.manual)
        for tag, one in job.of(Equipment).items()
        if in_use(one) and (one.maker or one.model or one.manual)
    )


def _cost(job: Job, one: Equipment) -> str:
    """Of what is owned, what was paid for it; else its price, all of its pieces together: a deposit is no cost."""
    price = one.price * one.count if one.price is not None else None
    first, second = (one.paid, price) if one.state == "owned" else (price, one.paid)
    amount = first if first is not None else second
    return show_money(amount, job.settings.currency) if amount is not None else ""


def _breakers(job: Job, tag: str) -> str:
    return ", ".join(f"{job.of(Circuit)[each].slot or 'no number'} ({each})" for each in circuits_of(job, tag))


def _way(job: Job, tag: str) -> str:
    way = best_means(job, tag)
    return "" if way is None else "its own plate" if way.kind == "plate" else way.by


def _days(job: Job) -> Rows:
    found = []
    for tag, one in job.of(Equipment).items():
        days = (("service", one.service), ("warranty ends", one.warranty), ("last day to send it back", one.return_by))
        for what, day in days if in_use(one) else ():
            late = day is not None and day < job.today
            if day is not None and (not late or what == "service"):
                found.append((day, tag, one.name, f"{what}, overdue" if late else what))
    return ("day", "tag", "what", "why"), ((date_text(job, day), *rest) for day, *rest in sorted(found))


def _cables(job: Job) -> Rows:
    return ("tag", "for", "type", "from", "to", "length", "route", "proof"), (
        (
            tag, one.name + (" (spare)" if one.spare else ""), one.type,
            _end(job, one, one.start), _end(job, one, one.end),
            _path(job, tag), one.raceway or (one.route if one.in_wall else "in the cabinet"), _evidence(job, tag),
        )
        for tag, one in job.of(Cable).items()
        if in_use(one)
    )  # fmt: skip


def _end(job: Job, one: Cable | Raceway, tag: str) -> str:
    return end_text(job, one, tag, full=True)


def _path(job: Job, tag: str) -> str:
    route = routes(job).get(tag)
    return _length(job, Length(route.path)) if route is not None and route.path is not None else ""


def _evidence(job: Job, tag: str) -> str:
    """What was seen of a cable and by whom: `pulled, labelled: picture 7 (Kim); tested: 1 Gbit/s (Kim)`."""
    found: dict[str, list[str]] = {}
    for part in ("pulled", "labelled", "tested", "photographed"):
        if (closing := job.of(Closing).get(f"{tag}/{part}")) is not None:
            found.setdefault(f"{closing.evidence or closing.reason} ({closing.by})", []).append(part)
    return "; ".join(f"{', '.join(parts)}: {ground}" for ground, parts in found.items())


def _raceways(job: Job) -> Rows:
    return ("tag", "name", "type", "from", "to", "room for", "pull string"), (
        (
            tag, one.name, f"{one.type} {one.size}".strip(), _end(job, one, one.start), _end(job, one, one.end),
            f"{insides(job)[tag].more} more like {insides(job)[tag].more_of}" if insides(job)[tag].bore_in else "",
            "yes" if one.string else "not entered",
        )
        for tag, one in job.of(Raceway).items()
    )  # fmt: skip


def _boxes(job: Job) -> Rows:
    return ("tag", "name", "kind", "place", "access through", "breaker"), (
        (
            tag, one.name, one.what, place_text(job, tag) if one.x is not None else "", _way(job, tag),
            _breakers(job, tag),
        )
        for tag, one in job.of(Box).items()
    )  # fmt: skip


def _framing(job: Job) -> Rows:
    def rows() -> Iterator[Sequence[str]]:
        for tag, wall in job.of(Wall).items():
            found = [sizes(job).get((tag, what)) for what in ("width", "height")]
            size = " x ".join(_length(job, each.least) if each else "not measured" for each in found)
            first = _length(job, wall.first_stud) or "not entered"
            yield tag, wall.name, size, f"first stud at {first}, then every {_length(job, wall.spacing)} on center"
        for tag, out in job.of(BuildOut).items():
            high = _length(job, out.height) or "to the ceiling"
            size = f"{_length(job, out.width)} x {high}, {_length(job, out.depth)} out"
            yield tag, out.name, size, f"{_length(job, out.x)} from the left, {_length(job, out.y)} up on {out.wall}"
        for tag, one in job.of(Opening).items():
            size = " x ".join(sized(job, each.nm) if each else "?" for each in (one.width, one.height, one.depth))
            where = f"{_length(job, one.x) or '?'} from the left, {_length(job, one.y) or '?'} up on {one.wall or '?'}"
            yield tag, one.name, size, where
            there = opened_up(job).get(tag)
            for laid in there.boards if there is not None else ():
                across, up = (sized(job, each) for each in (laid.right_nm - laid.left_nm, laid.top_nm - laid.bottom_nm))
                where = f"{sized(job, laid.left_nm)} from the left inside" if laid.divider else ""
                where = where or f"top {sized(job, laid.top_nm)} above the bottom inside"
                board = job.of(ShelfBoard)[laid.tag]
                yield laid.tag, board.name or board.what, f"{across} x {up}", f"{where} of {tag}"

    return ("tag", "name", "size", "place"), rows()


def _finishes(job: Job) -> Rows:
    def rows() -> Iterator[Sequence[str]]:
        for tag, zone in job.of(Zone).items():
            burns = {"yes": "combustible", "no": "noncombustible"}.get(zone.burns, "")
            made = f"{_length(job, zone.thickness)} from the studs, on {zone.backing}"
            yield tag, zone.name, ", ".join(each for each in (made, burns) if each)
        for tag, one in job.of(Opening).items():
            if one.material:
                yield tag, one.name, f"{one.material} {_length(job, one.thickness)}".strip()
        for record in job.each():
            if record.notes and FINISH_WORDS.search(record.notes):
                yield record.tag, str(getattr(record, "name", "") or getattr(record, "what", "")), str(record.notes)

    return ("tag", "thing", "as entered"), rows()


def _people(job: Job) -> Rows:
    def rows() -> Iterator[Sequence[str]]:
        signed: dict[str, list[str]] = {}
        for handoff in job.of(Handoff).values():
            if handoff.signed:
                signed.setdefault(str(handoff.contact), []).append(f"handoff signed {date_text(job, handoff.signed)}")
        done: dict[str, list[str]] = {}
        for step in job.of(Step).values():
            if step.done:
                done.setdefault(str(step.who), []).append(f"{step.what} ({date_text(job, step.done)})")
        for tag, one in job.of(Contact).items():
            did = [*done.get(tag, ()), *signed.get(tag, ())]
            yield (
                one.name,
                one.trade,
                ", ".join(each for each in (one.phone, one.mail) if each),
                one.licence,
                "; ".join(did),
            )
        if own := done.get(""):
            yield job.settings.owner or "owner", "owner", "", "", "; ".join(own)

    return ("who", "trade", "how to reach", "license no.", "did"), rows()


def _inspected(job: Job) -> Rows:
    """What was seen, a row each; what follows from one record, and was seen at once, on one row."""
    checks = {check.key: check.what for check in rough_in(job)} | {AGREED: "the mock-up in tape on the wall, agreed"}
    found: dict[tuple[str, ...], list[str]] = {}
    for key, one in job.of(Closing).items():
        about, part, _ = key.partition("/")
        told = (one.outcome, date_text(job, one.date), one.by, one.evidence or one.reason)
        found.setdefault((about if part and key != AGREED else key, *told), []).append(key)

    def rows() -> Iterator[Sequence[str]]:
        for (about, *told), keys in found.items():
            if len(keys) > 1:
                yield about, f"{named(job, about)}: {', '.join(key.partition('/')[2] for key in keys)}", *told
            else:
                yield keys[0], checks.get(keys[0], "no longer on the list"), *told

    return ("item", "what", "state", "day", "by", "proof or reason"), rows()


def _stages(job: Job) -> Rows:
    return ("stage", "moved on", "by", "reason"), (
        (str(one.stage), date_text(job, one.date), one.by, one.reason) for one in job.of(Passage).values()
    )


def _wishes(job: Job) -> Rows:
    ready = {one.wish: ready_text(job, one) for one in upgrades(job)}
    return ("tag", "wish", "kept", "why", "served by", "when", "ready"), (
        (
            tag, one.what, one.kept, one.why, ", ".join(one.served_by),
            f"in {plural(one.years, 'year')}" if one.years is not None else "", ready.get(tag, ""),
        )
        for tag, one in job.of(Wish).items()
        if one.kept != "dropped"
    )  # fmt: skip


def _findings(job: Job) -> Rows:
    return ("problem", "about", "what", "accepted by"), (
        (
            SEVERITY[each.severity], ", ".join(each.tags), each.in_full,
            accepted_line(each.answer, job.manner.day_first) if each.answer else "open",
        )
        for each in findings(job)
    )  # fmt: skip


def _retired(job: Job) -> Rows:
    things: list[Equipment | Cable] = [*job.of(Equipment).values(), *job.of(Cable).values()]
    return ("tag", "what", "retired", "replaced by", "serial", "notes"), (
        (
            one.tag, one.name, _day(job, one.retired), str(one.replaced_by), str(getattr(one, "serial", "")),
            str(one.notes),
        )
        for one in things
        if one.retired is not None
    )  # fmt: skip
