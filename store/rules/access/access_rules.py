"""Findings about access: what would be buried, or is named to be reached through a way that does not count."""

from __future__ import annotations

import re
from collections.abc import Iterable

from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit
from store.rules.access.means import (
    PRACTICE,
    Means,
    access_source,
    best_means,
    fixed_fronts,
    is_mains_box,
    least_way,
    means_of,
    naming_panels,
    needs_access,
)
from store.rules.cable.kinds import is_power
from store.rules.core.code import edition, is_us
from store.rules.core.findings import Finding, Severity, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import ELECTRICIAN, listed, named, paired, said
from store.rules.wall.contents import opening_of_box
from store.rules.wall.layout import cables_at
from store.rules.wall.pieces import in_use, is_hidden
from store.rules.wall.places import not_placed, point_of, shows_on_wall, wall_of
from store.trade.measured.citations import nec

CONNECTION = "common practice: a connection stays within reach"
JOINT_NAMES = re.compile(r"\b(splice|joint|junction|connector|valve)", re.I)
"""Words in the name of a part that is itself a connection, or shuts one off."""
WITHOUT_JOINT = ("light", "part")
"""Sorts of equipment that may have no connection of their own behind the wall: a light whose mounting nobody entered, a
part of the fireplace. Every other sort that is changed out of sight has, like a box."""


@rule
@from_each(Box)
def box_without_way(job: Job, box: Box) -> Iterable[Finding]:
    """A box that the finish would cover, beside those of which the power findings tell."""
    tag = box.tag
    inside = opening_of_box(job).get(tag, "")
    if means_of(job, tag) or not inside or (is_mains_box(box) and not (box.what == "junction" and shows_on_wall(box))):
        return
    plate = "its blank plate would be behind the cabinet" if box.what == "junction" else "no access entered"
    yield Finding(
        "box_without_way",
        "fix" if box.what == "pass-through" else "stop",
        (tag, inside),
        f"No access: buried behind {inside}",
        (
            f"If the back of {inside} is cut out for the box, enter access through {inside}. "
            f"Otherwise plan an access panel or move the box.{_caution(job, box)}"
        ),
        access_source(job) if is_mains_box(box) else CONNECTION,
        {"reached by": "nothing", "behind": inside},
        why=f"{tag} is behind {named(job, inside)}, and {plate}.",
        about=(tag,),
        final=is_mains_box(box),
    )


@rule
@from_each(Box, Equipment, Cable)
def way_does_not_count(job: Job, record: Box | Equipment | Cable) -> Iterable[Finding]:
    """A thing whose every way is shut by something fixed, or too far from it."""
    tag, found = record.tag, means_of(job, record.tag) if _is_reachable(job, record) else ()
    if found and not any(way.counts for way in found):
        way = next((each for each in found if not each.nowhere), found[0])
        severity, source = _gravity(job, record)
        if way.nowhere:
            if _placed(job, record) or _must_stay_open(job, record) or _is_joint(job, record):
                yield _nowhere(job, record, way, severity, source)
            return
        if way.clear is not None:
            yield _too_small(job, record, way, severity, source)
            return
        into = f", {said(job, way.deep_nm)} of that in depth" if way.deep_nm else ""
        reach = f"{said(job, way.far_nm or 0)} away{into}, and a hand reaches {said(job, way.reach_nm)} past its edge"
        if way.blocked_by:
            yield Finding(
                "way_blocked",
                severity,
                (tag, way.by),
                "Access is blocked",
                (f"Plan an access panel with nothing fixed in front of it, or move {tag}.{_caution(job, record)}"),
                source,
                {"reached by": way.by, "in front": way.blocked_by},
                why=(
                    f"{tag} is reached through {named(job, way.by)}, but {named(job, way.blocked_by)} is fixed "
                    "in front of that. Blocked access does not count."
                ),
                about=(tag,),
            )
        else:
            yield Finding(
                "way_too_far",
                severity,
                (tag, way.by),
                f"Out of reach from {way.by}",
                f"Move {tag} or {way.by}, or plan an access panel in front of {tag}.{_caution(job, record)}",
                f"{source}; how far a hand reaches: {PRACTICE}",
                {"away": said(job, way.far_nm or 0), "reach": said(job, way.reach_nm)},
                why=f"{named(job, way.by)} is entered as its access, but it is {reach}.",
                about=(tag,),
            )


def _nowhere(job: Job, record: Box | Equipment | Cable, way: Means, severity: Severity, source: str) -> Finding:
    by = job.get(way.by)
    missing = not_placed(by) if isinstance(by, Panel | Opening) else "it is not in this job"
    return Finding(
        "way_nowhere",
        severity,
        (record.tag, way.by),
        f"Reached by {way.by}, which is not placed yet",
        f"Enter where {way.by} is and its size, or enter other access.{_caution(job, record)}",
        source,
        {"reached by": way.by, "missing": missing},
        why=f"{way.by}: {missing}. Access counts only where the plan shows it within reach.",
        about=(record.tag,),
        final=_must_stay_open(job, record),
    )


def _too_small(job: Job, record: Box | Equipment | Cable, way: Means, severity: Severity, source: str) -> Finding:
    asked, (width, height) = least_way(job, record), way.clear or (0, 0)
    has, wants = paired(job, width, height), paired(job, asked.width_nm, asked.height_nm)
    return Finding(
        "way_too_small",
        severity,
        (record.tag, way.by),
        f"No hand gets through {way.by}",
        f"Make {way.by} larger while the wall is open, or enter other access.{_caution(job, record)}",
        f"{source}; size: {asked.source}",
        {"clear": has, "least": wants},
        why=f"{named(job, way.by)} is entered as its access: {has} clear, and {wants} is the least you can work "
        "through.",
        about=(record.tag,),
        final=_must_stay_open(job, record),
    )


def _placed(job: Job, record: Box | Equipment | Cable) -> bool:
    """True for what has a place on a wall; a cable's end lies where its panel is."""
    return isinstance(record, Cable) or (point_of(job, record.tag) is not None and bool(wall_of(job, record.tag)))


def _must_stay_open(job: Job, record: Box | Equipment | Cable) -> bool:
    """True for a connection of mains wiring that the code keeps within reach: a junction box, a wired device."""
    if isinstance(record, Box):
        return not shows_on_wall(record)
    return isinstance(record, Equipment) and _is_wired(job, record)


@rule
@from_each(Box, Equipment)
def hidden_thing_nowhere(job: Job, record: Box | Equipment) -> Iterable[Finding]:
    """A thing behind the finished wall without a place: whether its panel or opening reaches it cannot be told."""
    behind = isinstance(record, Equipment) and needs_access(record)
    joint = isinstance(record, Box) and _must_stay_open(job, record)
    if not (behind or joint) or _placed(job, record):
        return
    found = [way for way in means_of(job, record.tag) if way.counts]
    # What is reached through an opening stands in it; a panel has things anywhere behind it. A joint is shown on paper.
    if found and (joint or all(way.kind == "panel" for way in found)):
        mains = _must_stay_open(job, record)
        yield Finding(
            "hidden_thing_nowhere",
            "stop" if mains else "look",
            (record.tag,),
            "No place behind the wall",
            f"Enter its wall and where its center is.{_caution(job, record)}",
            access_source(job) if mains else PRACTICE,
            {"place": "not entered"},
            why=f"No place entered, so it is not known if {listed([way.by for way in found])} reaches it.",
        )


@rule
@from_each(Box)
def behind_fixed_piece(job: Job, box: Box) -> Iterable[Finding]:
    """A box that is reached only when the fixed piece which it feeds is taken out."""
    tag, way = box.tag, best_means(job, box.tag)
    if way is not None and way.counts and way.feeds:
        yield Finding(
            "behind_fixed_piece",
            "look",
            (tag, way.blocked_by),
            f"Reached only by pulling {way.blocked_by}",
            (
                f'Ask the inspector: "Is {tag} accessible with {way.blocked_by} in place?" Check in the '
                "manual that the unit comes out again without cutting the finish. Enter the answer. "
                f"{ELECTRICIAN}"
            ),
            access_source(job),
            {"in front": way.blocked_by},
            why=(
                f"{tag} is behind {named(job, way.blocked_by)}, which it feeds. The inspector decides if "
                "that is accessible."
            ),
            about=(tag,),
        )


@rule
@from_each(Equipment)
def thing_without_way(job: Job, one: Equipment) -> Iterable[Finding]:
    """A light, driver, power supply, extender or part behind the finish with nothing that reaches it."""
    tag = one.tag
    if not needs_access(one) or means_of(job, tag):
        return
    severity, source = _gravity(job, one)
    yield Finding(
        "thing_without_way",
        severity,
        (tag,),
        "No access listed",
        f"Enter what reaches it. If nothing does, plan an access panel now.{_caution(job, one)}",
        source,
        {"reached by": "nothing"},
        why=("It will need replacing one day, and no access panel, opening or removable shelf is entered for it."),
        final=_must_stay_open(job, one),
    )


@rule
def cable_end_without_way(job: Job) -> Iterable[Finding]:
    """The signal cables in the wall of which an end is nowhere, and no panel is named for them: one finding."""
    loose = {
        tag: listed([end for end, at in (("from", cable.start), ("to", cable.end)) if not at])
        for tag, cable in job.of(Cable).items()
        if in_use(cable)
        and cable.in_wall
        and not (cable.start and cable.end)
        and not cable.reached
        and tag not in naming_panels(job)
        and not is_power(job, cable)
    }
    if loose:
        ends = listed([f"{named(job, tag)}: {end}" for tag, end in loose.items()])
        yield Finding(
            "cable_end_without_way",
            "fix",
            tuple(loose),
            "Loose cable end in the wall" if len(loose) == 1 else "Loose cable ends in the wall",
            ("Enter where each end goes. If it is coiled up for later, enter the access panel it is behind."),
            CONNECTION,
            loose,
            why=f"These ends are at no box, opening or equipment, so drywall would bury them: {ends}.",
        )


RING_LEGS = 2
"""Cables of a ring final circuit at the consumer unit. BS 7671 433.1.204."""


@rule
def mains_end_without_way(job: Job) -> Iterable[Finding]:
    """A mains cable in the wall that ends nowhere, on a circuit that another cable already brings from its breaker."""
    loose: dict[str, list[Cable]] = {}
    for cable in job.of(Cable).values():
        known = str(cable.start or cable.end)
        if in_use(cable) and cable.in_wall and not (cable.start and cable.end) and is_power(job, cable):
            at = job.of(Box).get(known)
            loose.setdefault(str(at.circuit) if at is not None and at.circuit else known, []).append(cable)
    for tag, group in loose.items():
        feeds = [cable for cable in group if not cable.start and cable.end]
        circuit = job.of(Circuit).get(tag)
        if circuit is not None and circuit.wiring == "ring" and not is_us(job):
            # A ring has two legs to the consumer unit, whichever way each is entered.
            feeds = [*feeds, *(cable for cable in group if cable not in feeds)][:RING_LEGS]
        for cable in group if len(group) > 1 else ():
            if cable in feeds or naming_panels(job).get(cable.tag) or cable.reached:
                continue
            yield Finding(
                "mains_end_without_way",
                "stop",
                (cable.tag,),
                "Line-voltage cable ends in no box",
                (
                    "Enter the box it ends in, or have it taken out. Never leave the end of a line-voltage cable "
                    f"in a wall without a box. {ELECTRICIAN}"
                ),
                nec("300.15", edition(job)) if is_us(job) else access_source(job),
                {"ends": "nowhere", "circuit": group[0].tag},
                why=(
                    f"One end of {cable.tag} is in the wall without a box. Its circuit comes from the breaker through "
                    f"{listed([each.tag for each in group if each is not cable])}."
                ),
            )


@rule
@from_each(Box, Equipment, Cable)
def way_on_other_wall(job: Job, record: Box | Equipment | Cable) -> Iterable[Finding]:
    """A thing that is reached from another wall than its own: right for two sides of one wall, else a slip.

    The plan cannot tell which two walls are two sides of one; so of what must not be buried it is a stop, until
    somebody who may says so.
    """
    tag, found = record.tag, means_of(job, record.tag) if _is_reachable(job, record) else ()
    found = tuple(way for way in found if way.counts)
    if found and all(way.other_wall for way in found):
        way = found[0]
        severity, source = _gravity(job, record)
        stop = severity == "stop"
        yield Finding(
            "way_on_other_wall",
            "stop" if stop else "look",
            (tag, way.by),
            f"Access is on another wall, {way.by}",
            "Enter an access panel on its own wall. If they are the two sides of one wall, "
            + (f"have the inspector accept this.{_caution(job, record)}" if stop else "accept this."),
            source if stop else PRACTICE,
            {"reached by": way.by, "walls": f"{wall_of(job, tag)}, {wall_of(job, way.by)}"},
            why=f"{tag} is not on the same wall as {named(job, way.by)}, its access.",
            about=(tag,),
        )


def _is_reachable(job: Job, one: Box | Equipment | Cable) -> bool:
    if isinstance(one, Box):
        return True
    if isinstance(one, Cable):
        return in_use(one) and bool(one.reached)
    return in_use(one) and (bool(one.reached) or needs_access(one) or _is_shut_in(job, one))


def _gravity(job: Job, record: Box | Equipment | Cable) -> tuple[Severity, str]:
    """A box and a connection must not be buried; the rest would only be lost."""
    if isinstance(record, Box):
        if record.what == "pass-through":
            return "fix", PRACTICE
        return "stop", access_source(job) if is_mains_box(record) else CONNECTION
    if isinstance(record, Equipment) and _is_wired(job, record):
        return "stop", access_source(job)
    return ("stop", CONNECTION) if _is_joint(job, record) else ("fix", PRACTICE)


def _is_joint(job: Job, one: Box | Equipment | Cable) -> bool:
    """True for equipment behind the wall that has connections of its own there: the same holds for it as for a box."""
    if not isinstance(one, Equipment):
        return False
    if one.what == "strip" and not (one.wall or one.opening):
        return False  # nothing tells that it is in the wall and not in the room
    behind = needs_access(one) or _is_shut_in(job, one)
    return behind and (one.what not in WITHOUT_JOINT or JOINT_NAMES.search(one.name) is not None)


def _is_shut_in(job: Job, one: Equipment) -> bool:
    """True for what stands out of sight behind a fixed piece in its opening."""
    return is_hidden(one) and one.opening in fixed_fronts(job)


def _is_wired(job: Job, one: Equipment) -> bool:
    """True where mains wiring is joined to a piece of equipment: by what is noted of it, or by a cable of the plan."""
    return one.power == "hard-wired" or any(is_power(job, cable) for cable in cables_at(job).get(one.tag, ()))


def _caution(job: Job, record: Box | Equipment | Cable) -> str:
    """The end of a remedy where mains wiring is touched."""
    mains = isinstance(record, Box) and is_mains_box(record)
    return f" {ELECTRICIAN}" if mains or (isinstance(record, Equipment) and _is_wired(job, record)) else ""
