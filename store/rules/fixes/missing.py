"""What a plan lacks: a circuit for a box, a receptacle behind the TV, a cable, a tag on a panel's list."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from store.measure.counts import plural
from store.measure.length import INCH_NM, Length
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit
from store.rules.core.findings import Finding
from store.rules.core.wording import listed
from store.rules.fixes.fix import Fix, fixes, next_free
from store.rules.power.wall_wiring import wall_spacing
from store.rules.wall.layout import outline, walls
from store.rules.wall.places import point_of
from store.trade.measured.plane import Rect

ALONG_Y_NM = 16 * INCH_NM
"""Height of the receptacles along a wall (common practice)."""
PLATE_NM = 2 * INCH_NM
"""From the middle of a box to the edge of its plate, about."""


@fixes("power_box_without_circuit")
def nearest_circuit(job: Job, finding: Finding) -> Iterator[Fix]:
    """The circuit of the nearest box on the same wall; where the job has one circuit, that."""
    boxes = [box for tag in finding.tags if (box := job.of(Box).get(tag)) is not None]
    near = [replace(box, circuit=Ref(circuit)) for box in boxes if (circuit := _circuit_near(job, box))]
    if near:
        yield Fix(f"Put {listed([each.tag for each in near])} on the nearest circuit", tuple(near))
    made = _new_circuit(job)
    tags = listed([each.tag for each in boxes])
    yield Fix(f"Plan a circuit for {tags}", tuple(replace(box, circuit=Ref(made.tag)) for box in boxes), (made,))


def _new_circuit(job: Job) -> Circuit:
    """A circuit as it is usual for receptacles: 20 A on 12 AWG with AFCI, or 16 A on 2.5 mm2 with an RCD."""
    tag = next_free(job, Circuit)
    if job.settings.region == "us":
        return Circuit(tag=tag, name="Wall", breaker=20.0, volts=120.0, conductor="12 AWG copper", afci=True)
    return Circuit(tag=tag, name="Wall", breaker=16.0, volts=230.0, conductor="2.5 mm2", gfci=True)


def _circuit_near(job: Job, box: Box) -> str:
    if len(job.of(Circuit)) == 1:
        return next(iter(job.of(Circuit)))
    at = point_of(job, box.tag)
    near = []
    for other in job.of(Box).values():
        there = point_of(job, other.tag)
        circuit = job.of(Circuit).get(other.circuit)
        if circuit is None or circuit.only_for or other.wall != box.wall or at is None or there is None:
            continue
        near.append((abs(at[0] - there[0]) + abs(at[1] - there[1]), other.circuit))
    return min(near)[1] if near else ""


@fixes("no_receptacle_behind_screen")
def receptacle_behind_screen(job: Job, finding: Finding) -> Iterator[Fix]:
    """A recessed receptacle in the opening of the TV, off the studs, on a circuit that is there."""
    one = job.of(Equipment).get(finding.tags[0])
    opening = job.of(Opening).get(one.opening) if one is not None else None
    at = outline(opening) if opening is not None else None
    if one is None or opening is None or at is None or opening.x is None or opening.y is None:
        return
    assert opening.width is not None
    assert opening.height is not None
    circuits = [tag for tag, circuit in job.of(Circuit).items() if not circuit.only_for] or [""]
    tag = next_free(job, Box)
    on = walls(job).get(opening.wall)
    step = 25_000_000 if job.settings.metric else INCH_NM
    middle, up = opening.x.nm + opening.width.nm // 2, opening.y.nm + opening.height.nm // 3
    for circuit in circuits:
        gauge = job.of(Circuit)[circuit].conductor.split(" ")[0] if circuit else "12"
        for across in sorted(range(-10, 11), key=abs):
            x = middle + across * step
            if on is not None and any(s.left_nm - 2 * step < x < s.right_nm + 2 * step for s in on.studs):
                continue
            box = Box(
                tag=tag, name="Behind the TV", what="receptacle", wall=opening.wall, x=Length(x), y=Length(up),
                circuit=Ref(circuit), receptacles=2, devices=(f"receptacle TR {gauge}",),
            )  # fmt: skip
            free = replace(one, plug=Ref(tag)) if not one.plug else one
            yield Fix("Add a receptacle behind the TV", (free,) if free != one else (), (box,))
            break


@fixes("receptacles_too_far")
def receptacle_in_reach(job: Job, finding: Finding) -> Iterator[Fix]:
    """A receptacle at each place of the wall that has none within 6 ft, off the studs, on a circuit that is there."""
    tag = finding.tags[0]
    spacing, on = wall_spacing(job, tag), walls(job).get(tag)
    circuits = [each for each, circuit in job.of(Circuit).items() if not circuit.only_for]
    if spacing is None or on is None:
        return
    made = [] if circuits else [_new_circuit(job)]
    places = [round(each * INCH_NM) for space in spacing.spaces if space.out_of_reach for each in space.add_at_in]
    taken = [each.rect for each in on.openings]
    for circuit in circuits or [made[0].tag]:
        gauge = (job.of(Circuit)[circuit] if circuits else made[0]).conductor.split(" ")[0]
        for off in sorted(range(-48, 49, 2), key=abs):
            boxes = tuple(
                Box(
                    tag=next_free(job, Box, count), name="Along the wall", what="receptacle", wall=Ref(tag),
                    x=Length(max(0, x + off * INCH_NM)), y=Length(ALONG_Y_NM), circuit=Ref(circuit), receptacles=2,
                    devices=(f"receptacle TR {gauge}".strip(),),
                )
                for count, x in enumerate(places)
            )  # fmt: skip
            if not any(_within(box, rect) for box in boxes for rect in taken):
                yield Fix(f"Add {plural(len(boxes), 'receptacle')} along the wall", (), (*made, *boxes))


def _within(box: Box, rect: Rect) -> bool:
    """True for a box in an opening, or too near to its edge for its plate."""
    assert box.x is not None
    side = rect.x_nm - PLATE_NM < box.x.nm < rect.right_nm + PLATE_NM
    return side and rect.y_nm - PLATE_NM < ALONG_Y_NM < rect.top_nm + PLATE_NM


@fixes("switch_without_uplink")
def uplink(job: Job, finding: Finding) -> Iterator[Fix]:
    """A network cable from the router."""
    for router in job.of(Equipment).values():
        if router.what == "router" and router.retired is None:
            yield _cable(
                job, "Uplink", "cat6", "CMR", router.tag, finding.tags[0], "Add a network cable from the router"
            )


@fixes("no_way_for_later")
def spare_cable(job: Job, finding: Finding) -> Iterator[Fix]:
    """A spare network cable beside the first cable of each place."""
    ends = [(one.start, one.end) for tag in finding.tags if (one := job.of(Cable).get(tag)) is not None]
    for start, end in dict.fromkeys(ends):
        fix = _cable(job, "Spare", "cat6", "CMR", start, end, "Pull a spare network cable")
        yield replace(fix, added=tuple(replace(each, spare=True) for each in fix.added if isinstance(each, Cable)))


@fixes("no_sound_return")
def sound_cable(job: Job, finding: Finding) -> Iterator[Fix]:
    """An optical cable from the TV to the receiver."""
    things = [one for tag in finding.tags if (one := job.of(Equipment).get(tag)) is not None]
    screens = [one for one in things if one.what == "screen"]
    receivers = [one for one in (*things, *job.of(Equipment).values()) if one.what in ("receiver", "soundbar")]
    for screen in screens:
        for receiver in receivers:
            for kind, jacket in (("toslink", "OFNR"), ("hdmi", "CL3")):
                yield _cable(
                    job, "TV sound", kind, jacket, screen.tag, receiver.tag, "Add an optical cable for TV sound"
                )


def _cable(job: Job, name: str, kind: str, jacket: str, start: str, end: str, says: str) -> Fix:
    tag = next_free(job, Cable)
    return Fix(says, (), (Cable(tag=tag, name=name, type=kind, rating=jacket, start=Ref(start), end=Ref(end)),))


@fixes("behind_but_not_said")
def on_the_list(job: Job, finding: Finding) -> Iterator[Fix]:
    """What the plan puts behind a panel, on the panel's list."""
    one = job.of(Panel).get(finding.tags[0])
    if one is not None:
        more = tuple(Ref(tag) for tag in finding.tags[1:] if tag not in one.behind)
        yield Fix(f"Put {', '.join(more)} on the list of {one.tag}", (replace(one, behind=(*one.behind, *more)),))


@fixes("said_behind_but_far")
def off_the_list(job: Job, finding: Finding) -> Iterator[Fix]:
    """What is out of reach of a panel, off its list."""
    one = job.of(Panel).get(finding.tags[0])
    if one is not None:
        far = set(finding.tags[1:])
        kept = tuple(tag for tag in one.behind if tag not in far)
        yield Fix(f"Take {', '.join(sorted(far))} off the list of {one.tag}", (replace(one, behind=kept),))
