"""Findings about what hangs: board alone, screws that are too few, no stud behind, and what nobody has entered."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.build import Fixing
from store.records.whole import Job
from store.rules.build.backing import no_stud_behind, work_of
from store.rules.build.hanging import Hanging, hanging
from store.rules.core.amounts import force, heavy
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import listed, plural
from store.trade.build.bracket import HANDLED_FACTOR
from store.trade.build.screws import LATERAL_SOURCE, STEEL_SOURCE, WITHDRAWAL_SOURCE

SOURCES = {
    "wood": f"{WITHDRAWAL_SOURCE}, {LATERAL_SOURCE}; lever: statics",
    "steel": f"{STEEL_SOURCE}; lever: statics",
}
MAKER = "Manufacturer's rating, as entered; lever: statics"
WINS = "The mount's own instructions win."


@rule
@from_each(Fixing)
def board_alone(job: Job, record: Fixing) -> Iterable[Finding]:
    """Something that matters, held by drywall alone."""
    tag, one = record.tag, hanging(job).get(record.tag)
    if one is None:
        return
    if one.ground == "board" and one.matters:
        yield Finding(
            "board_alone",
            "stop",
            (one.fixing.of, tag),
            "Held by drywall alone",
            "Add blocking between the studs before the wall is covered and screw into it, or move the screws to "
            f"studs. {WINS}",
            "Common practice: no table rates drywall for leverage",
            {"into": one.fixing.into, "screw": one.fixing.what, "weight": f"{one.weight_lb:.1f} lb"},
            why=f"{tag}: {plural(one.fixing.count, one.fixing.what)} in drywall for {_what(one)}, "
            f"{heavy(job, one.weight_lb)}{' on an arm' if one.arm else ''}. Drywall tears out under leverage.",
        )


@rule
@from_each(Fixing)
def fixing_too_weak(job: Job, record: Fixing) -> Iterable[Finding]:
    """Screws that hold less than what hangs on them; on an arm, less than twice that."""
    tag, one = record.tag, hanging(job).get(record.tag)
    if one is None:
        return
    wanted = HANDLED_FACTOR if one.arm else 1.0
    margin, load, allowed = one.margin, one.load, one.allowed_lbf
    if margin is None or load is None or allowed is None or margin >= wanted - 1e-9:
        return
    if one.ground == "board" and one.matters:
        return
    pulled = "" if margin < 1 else " People pull on an arm: twice the load is common practice."
    yield Finding(
        "fixing_too_weak",
        "stop" if margin < 1 else "look",
        (tag, one.fixing.of),
        "Screws too weak for the load" if margin < 1 else f"Screws hold only {margin:.1f} times the load",
        f"{_would_do(one, wanted)} {WINS}",
        SOURCES.get(one.ground, MAKER),
        {"allowed": f"{allowed:.1f} lb", "needed": f"{load.both_lbf:.1f} lb"},
        why=f"Most loaded screw: {force(job, load.pull_lbf)} out and {force(job, load.shear_lbf)} down, "
        f"{force(job, load.both_lbf)} in all; it holds {force(job, allowed)} that way.{pulled}",
    )


@rule
@from_each(Fixing)
def fixing_unknown(job: Job, record: Fixing) -> Iterable[Finding]:
    """Screws that cannot be judged yet."""
    tag, one = record.tag, hanging(job).get(record.tag)
    if one is None:
        return
    missing = list(one.missing)
    if one.ground in ("board", "masonry") and one.held is None and not (one.ground == "board" and one.matters):
        missing.append("rated load of one anchor")
    if missing and not (one.ground == "board" and one.matters):
        yield Finding(
            "fixing_unknown",
            "look",
            (tag, one.fixing.of),
            "Can't judge these screws yet",
            "Enter them from the mount's manual and the screw's package.",
            "Common practice",
            {"missing": ", ".join(missing)},
            why=f"Not entered: {listed(missing)}.",
        )
    elif one.held is None and one.ground in ("wood", "steel"):
        yield Finding(
            "fixing_unknown",
            "look",
            (tag, one.fixing.of),
            "Screw not made for what it goes into",
            "Use lag or wood screws in wood, sheet-metal screws in a steel stud.",
            "Common practice",
            {"screw": one.fixing.what, "into": one.fixing.into},
            why=f"{one.fixing.what} into {one.fixing.into}.",
        )


@rule
@from_each(Fixing)
def no_stud_there(job: Job, record: Fixing) -> Iterable[Finding]:
    """Screws noted into a stud, where no stud is behind what they hold."""
    tag, one = record.tag, hanging(job).get(record.tag)
    if one is None:
        return
    if one.fixing.into == "stud" and no_stud_behind(job, one.fixing):
        made = {"cabinet": "cabinet work, which has no studs", "masonry": "masonry"}.get(work_of(job, one.fixing), "")
        yield Finding(
            "no_stud_there",
            "fix",
            (tag, one.fixing.of),
            "No stud behind these screws",
            "Add blocking and enter it, or move it over a stud.",
            "Geometry",
            {"of": one.fixing.of},
            why=f"{_what(one)} is between two studs of the layout." if not made else f"{_what(one)} is on {made}.",
        )


def _what(one: Hanging) -> str:
    return listed([tag for tag, _ in one.hung]) or one.fixing.of


def _would_do(one: Hanging, wanted: float) -> str:
    more = one.needed_for(wanted)
    if more is None:
        return "Use lag screws into studs or blocking: no number of these will hold."
    return f"Use {plural(more, 'screw')} of this kind, longer or thicker ones, or a taller bracket."
