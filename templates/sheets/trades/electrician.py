"""The electrician's sheet: boxes with their places, circuits with their loads, what hangs where, and what is asked."""

from __future__ import annotations

from collections.abc import Iterator

from store.measure.dates import echo_date
from store.measure.length import Length, show_length
from store.measure.numbers import with_unit
from store.records.equipment import Equipment
from store.records.wall import Wall
from store.records.whole import Job
from store.records.wiring import Box, Circuit
from store.rules.core.cautions import CAUTIONS
from store.rules.core.code import METRIC_CODE, edition, is_us
from store.rules.core.findings import SEVERITY_WORDS, Finding, accepted_line, findings
from store.rules.core.wording import named as called
from store.rules.core.wording import plain
from store.rules.handoff.electrician import in_every_box, questions
from store.rules.heat.heater import heaters
from store.rules.power.box_contents import BoxLook, looks, next_box
from store.rules.power.load import State, states
from store.rules.power.plan import drawn_w, has_plug, places_of, power
from store.rules.power.wall_wiring import first_support
from store.rules.wall.places import POWER_BOXES
from templates.sheets.layout.page import Block, Heading, Page, Signatures, Table, Words, html, markdown

OF_OTHER_THINGS = (
    "no_place_to_plug", "wrong_kind_of_place", "strip_on_strip", "strip_over_rating", "strip_in_wall", "cord_in_wall",
    "cord_through_wall", "cord_too_short", "no_receptacle_behind_screen", "quick_connect_without_power",
    "heater_on_strip", "metric_heater_too_large", "power_in_low_voltage_box", "receptacles_too_far", "hole_too_large",
)  # fmt: skip
"""Findings of power that name neither a box for power nor a circuit among their tags, or not always."""


def electrician_page(job: Job) -> Page:
    """The whole sheet."""
    return Page(
        "Electrician: boxes and circuits",
        job.settings.name,
        echo_date(job.today, job.manner.day_first),
        tuple(_blocks(job)),
    )


def electrician_html(job: Job) -> str:
    """The sheet as one HTML page that needs nothing else."""
    return html(electrician_page(job))


def electrician_markdown(job: Job) -> str:
    """The sheet as Markdown."""
    return markdown(electrician_page(job))


def _blocks(job: Job) -> Iterator[Block]:
    yield Words(CAUTIONS, "caution")
    yield Words((_basis(job),))
    yield from _warnings(job)
    yield from _boxes(job)
    yield Heading("Circuits")
    yield _circuits(job)
    yield from _on_circuits(job)
    yield from _heaters(job)
    yield from _fill(job)
    if reminders := in_every_box(job):
        yield Heading("In every box and stud")
        yield Words(tuple(reminders), "list")
    yield Heading("Questions that only a licensed person can answer")
    yield Words(tuple(questions(job)), "numbers")
    yield Signatures(("electrician, license no.", "date"))


def worked(job: Job) -> Iterator[Block]:
    """The sums that an electrician and an inspector ask for: load and drop of the circuits, box fill, heaters."""
    yield Heading("Circuits: load and voltage drop")
    yield Words((_basis(job),))
    yield _circuits(job)
    yield from _on_circuits(job)
    yield from _heaters(job)
    yield from _fill(job)


def _basis(job: Job) -> str:
    """Which tables the figures are by."""
    if not is_us(job):
        return (
            f"Figures for 230 V by {METRIC_CODE}, Table 4D5: copper at 70 °C; resistance of IEC 60228 class 5 where a "
            "circuit says stranded; no diversity is applied."
        )
    return (
        f"Figures by the National Electrical Code, {edition(job)} edition: copper, NM cable at 60 °C, resistance of "
        "Chapter 9, Table 8 at 75 °C, solid unless a circuit says stranded."
    )


def _warnings(job: Job) -> Iterator[Block]:
    """What is not right yet and concerns the electrician: stop and fix findings, the answered ones marked so."""
    rows = tuple(
        (
            "accepted" if each.answered else SEVERITY_WORDS[each.severity],
            f"{', '.join(each.tags)}: {each.in_full}",
            accepted_line(each.answer, job.manner.day_first) if each.answered and each.answer else each.do,
            each.source,
        )
        for each in findings(job)
        if each.severity != "look" and concerns(job, each)
    )
    if rows:
        yield Heading("Problems")
        yield Table(("", "problem", "what to do", "source"), rows)


def concerns(job: Job, finding: Finding) -> bool:
    """True for a finding about a box for power or a circuit, or about plugs, cords, studs and receptacles."""
    if finding.rule in OF_OTHER_THINGS:
        return True
    records = [job.get(tag) for tag in finding.tags]
    return any(isinstance(one, Circuit) or (isinstance(one, Box) and one.what in POWER_BOXES) for one in records)


def _boxes(job: Job) -> Iterator[Block]:
    """The boxes wall by wall, from the left; then those whose place is not given."""
    boxes = [box for box in job.of(Box).values() if box.what in POWER_BOXES]
    if boxes:
        yield Words(("Places are to the center of the box: up from the finished floor, across from the left corner.",))
    for tag in (*job.of(Wall), ""):
        here = [box for box in boxes if box.wall == tag]
        if here:
            yield Heading(f"Boxes on {called(job, tag)}" if tag else "Boxes with no wall entered")
            here.sort(key=lambda box: (box.x.nm if box.x is not None else -1, box.y.nm if box.y is not None else -1))
            yield Table(_BOX_TITLES, tuple(_box(job, box) for box in here))


_BOX_TITLES = ("box", "what", "up from floor", "from left corner", "circuit", "places", "fill", "more")


_SWITCHED = {"none": "", "half": "half switched", "all": "switched"}


def _box(job: Job, box: Box) -> tuple[str, ...]:
    look = looks(job).get(box.tag)
    places = places_of(box, power(job).gear[box.tag])
    gangs = "" if box.gangs == 1 else f", {box.gangs} gangs"
    return (
        box.tag,
        f"{box.name}: {box.what}{gangs}, {'new' if box.new else 'existing'}".removeprefix(": "),
        _length(job, box.y),
        _length(job, box.x),
        called(job, box.circuit) if box.circuit else "not entered",
        ", ".join(each for each in (str(places) if places else "", _SWITCHED[box.switched]) if each),
        _volume(look),
        "; ".join(_more(job, box)),
    )


def _more(job: Job, box: Box) -> Iterator[str]:
    if box.devices:
        yield ", ".join(box.devices)
    if box.new and is_us(job):
        yield f"first staple within {_length(job, first_support(box))}"
    if box.setback is not None:
        yield f"front edge {_length(job, box.setback)} behind the finish"
    if box.reached:
        yield f"reached by {called(job, box.reached)}"
    if box.notes:
        yield box.notes


def _volume(look: BoxLook | None) -> str:
    """What is needed of what there is, in³, as far as either is known."""
    if look is None or (look.fill is None and look.volume_in3 is None):
        return ""
    needs = "?" if look.fill is None else f"{look.fill.total_in3:.2f}"
    has = "?" if look.volume_in3 is None else f"{look.volume_in3:.2f}"
    return f"{needs} of {has} in³"


def _length(job: Job, length: Length | None) -> str:
    return "not entered" if length is None else show_length(length, job.settings.metric)


_CIRCUIT_TITLES = (
    "circuit", "breaker", "wire", "to the panel", "on it", "at 125%", "can carry", "room", "drop", "protection",
)  # fmt: skip


def _circuits(job: Job) -> Block:
    found = states(job)
    if not found:
        return Words(("No circuit is on the list yet.",))
    # The 125 % of continuous loads is a rule of the US code alone.
    titles = tuple(each for each in _CIRCUIT_TITLES if is_us(job) or each != "at 125%")
    return Table(titles, tuple(_circuit(job, state) for state in found.values()))


def _circuit(job: Job, state: State) -> tuple[str, ...]:
    on, one = state.on, state.on.circuit
    number = f", number {one.slot}" if one.slot else ""
    drop = state.drop
    lost = (
        "not known"
        if drop is None
        else f"{drop.volts:.2f} V, {with_unit(drop.percent, '%', metric=not is_us(job), places=1)}"
    )
    return (
        called(job, one.tag),
        f"{one.breaker:g} A, {plain(on.volts)} V{number}"
        if one.breaker
        else f"not entered, {plain(on.volts)} V{number}",
        f"{on.size.text}, {'stranded' if on.stranded else 'solid'}" if on.size else one.conductor or "not entered",
        _length(job, one.length),
        f"{plain(on.watts)} W, {plain(state.connected_a)} A",
        *([f"{plain(state.design_a)} A"] if is_us(job) else []),
        "not known" if state.limit_a is None else f"{plain(state.limit_a)} A",
        "not known" if state.room_a is None else f"{plain(state.room_a)} A",
        f"{lost} at {drop.to}" if drop is not None and drop.to else lost,
        ", ".join(word for word, so in _protection(job, state) if so) or "none entered",
    )


def _protection(job: Job, state: State) -> tuple[tuple[str, bool], ...]:
    one = state.on.circuit
    return ("arc fault", one.afci), ("ground fault" if is_us(job) else "30 mA", one.gfci)


def _on_circuits(job: Job) -> Iterator[Block]:
    """What hangs where, with the load that is there already."""
    rows: list[tuple[str, ...]] = []
    for tag, on in power(job).circuits.items():
        if on.circuit.load:
            rows.append((tag, "", "existing load", f"{plain(on.circuit.load)} W", "", ""))
        for each, feed in power(job).feeds.items():
            box = job.of(Box).get(feed.box)
            if box is not None and box.circuit == tag:
                rows.append((tag, feed.box, *_thing(job, job.of(Equipment)[each], feed.via)))
    if rows:
        yield Heading("What is on them")
        yield Table(("circuit", "box", "what", "watts", "hours", "how"), tuple(rows))


def _thing(job: Job, one: Equipment, via: tuple[str, ...]) -> tuple[str, ...]:
    watts = drawn_w(one)
    how: str = "plugged in" if has_plug(one) else one.power
    if via:
        how += f" through {', '.join(via)}"
        how += ", within its watts" if job.of(Equipment)[via[0]].what == "driver" else ""
    half = "" if one.half == "either" else f", {one.half} half"
    unknown = "" if one.what == "strip" else "not entered"
    return (
        called(job, one.tag),
        unknown if watts is None else f"{plain(watts)} W",
        "not entered" if one.hours is None and watts else "" if one.hours is None else f"{plain(one.hours)} h",
        how + half,
    )


def _heaters(job: Job) -> Iterator[Block]:
    for tag, look in heaters(job).items():
        yield Heading(f"Heater {called(job, tag)}")
        planned = f", {look.breaker_a} A" if look.breaker_a else ""
        planned += f" in {look.wire}" if look.wire else ""
        at = f"; at 125% {plain(look.amps_at_125)} A" if look.amps_at_125 is not None else ""
        yield Words((f"{plain(look.amps)} A at {plain(look.volts)} V{at}. To plan for: its own circuit{planned}.",))
        yield Words(look.settled, "list")


def _fill(job: Job) -> Iterator[Block]:
    """The worked sums of box fill."""
    sums = [(tag, look) for tag, look in looks(job).items() if look.fill is not None]
    if sums:
        yield Heading("Box fill, line by line")
        yield Table(
            ("box", "sum", "would work"),
            tuple((called(job, tag), "; ".join(look.lines), next_box(job, look)) for tag, look in sums),
        )
