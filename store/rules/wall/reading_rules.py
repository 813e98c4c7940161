"""Findings about the wall as measured: readings that disagree, are old or look misread, and a wall that leans."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.wall import Reading, Wall
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import date_text, listed, said, sized
from store.rules.wall.readings import sizes, that_count
from store.rules.wall.squareness import CornerRead, corners, deepest_at, squareness
from store.trade.measured.survey import odd_readings

PRACTICE = "common practice"


@rule
def spread_beyond_tolerance(job: Job) -> Iterable[Finding]:
    """Readings of one thing that differ by more than the job's tolerance."""
    for (wall, what), size in sizes(job).items():
        if what not in ("width", "height", "depth") or size.spread <= job.settings.tolerance:
            continue
        spread, least = sized(job, size.spread.nm), said(job, size.least.nm)
        yield Finding(
            "spread_beyond_tolerance",
            "look",
            (wall, *size.tags),
            f"{what.capitalize()} readings differ by {spread}",
            (f"Read the {what} once more at each place. If they are right, build to {least} and scribe the rest."),
            PRACTICE,
            {"what": what, "spread": spread, "least": least},
            why=f"The smallest, {least} ({size.least_tag}), governs.",
            about=(wall,),
        )


@rule
@from_each(Wall)
def scribe_too_small(job: Job, wall: Wall) -> Iterable[Finding]:
    """The width varies by more than the trim at the sides can cover."""
    tag = wall.tag
    size = sizes(job).get((tag, "width"))
    if size is None or wall.scribe is None or size.spread <= wall.scribe:
        return
    needs, covers = sized(job, size.spread.nm), sized(job, wall.scribe.nm)
    yield Finding(
        "scribe_too_small",
        "fix",
        (tag,),
        f"Trim covers {covers}, width varies by {needs}",
        f"Plan trim or filler that covers at least {needs}, or have the wall straightened.",
        PRACTICE,
        {"varies": needs, "covers": covers},
        why=f"The width of {tag} varies by {needs}, and the scribe allowance is {covers}.",
    )


@rule
def stale_readings(job: Job) -> Iterable[Finding]:
    """Readings from before the framing was last changed, or that cannot be told from such."""
    by_wall: dict[str, list[Reading]] = {}
    for reading in that_count(job):
        by_wall.setdefault(reading.wall, []).append(reading)
    for tag, wall in job.of(Wall).items():
        if wall.framed is None:
            continue
        day = date_text(job, wall.framed)
        old = [each.tag for each in by_wall.get(tag, ()) if each.date is not None and each.date < wall.framed]
        if old:
            yield Finding(
                "stale_readings",
                "look",
                (tag, *old),
                f"Readings older than the framing: {' '.join(old[:4])}",
                "Read them again and enter the day. Delete the old ones.",
                PRACTICE,
                {"framed": wall.framed.isoformat()},
                why=f"The framing changed on {day}.",
                about=(tag,),
            )
        undated = [each.tag for each in by_wall.get(tag, ()) if each.date is None]
        if undated:
            yield Finding(
                "undated_readings",
                "look",
                (tag, *undated),
                f"Readings with no date: {' '.join(undated[:5])}",
                "Enter the day of each reading, or read again.",
                PRACTICE,
                {"framed": wall.framed.isoformat()},
                why=f"The framing changed on {day}: were they taken before or after?",
                about=(tag,),
            )


@rule
def likely_slips(job: Job) -> Iterable[Finding]:
    """Two readings of one thing that differ as people misread a tape: by a foot, an inch, a whole ten."""
    groups: dict[tuple[str, str, str], list[Reading]] = {}
    for reading in that_count(job):
        # A wall has two diagonals and leans another way at each place: they differ by right, if not at one place.
        where = " ".join(reading.where.lower().split()) if reading.what in ("diagonal", "out of plumb") else ""
        if where or reading.what not in ("diagonal", "out of plumb"):
            groups.setdefault((reading.wall, reading.what, where), []).append(reading)
    for (_, what, _), group in groups.items():
        for odd in odd_readings([each.value.nm for each in group]):
            one, other = group[odd.index], group[odd.against]
            differ = said(job, abs(one.value.nm - other.value.nm))
            yield Finding(
                "likely_slip",
                "look",
                (one.tag, other.tag),
                f"Readings {differ} apart, likely a slip",
                (f"Read {one.tag} and {other.tag} again, each by a second person, and correct the wrong one."),
                PRACTICE,
                {"differ": differ, "slip": odd.slip.name},
                why=f"Both are the {what}. {differ} looks like a slip of the tape by {odd.slip.name}.",
            )


@rule
def out_of_square(job: Job) -> Iterable[Finding]:
    """A wall that leans by more than the tolerance, or whose readings cannot all be right."""
    tolerance = job.settings.tolerance.nm
    for wall, found in squareness(job).items():
        if found.lean_nm is None:
            yield Finding(
                "diagonals_impossible",
                "look",
                (wall, *found.tags),
                "Diagonals can't be right",
                ("Read the width, height and both diagonals again, corner to corner, with the tape straight."),
                PRACTICE,
                {"diagonals": ", ".join(found.tags)},
                why=f"No wall has this width, height and these diagonals ({listed(found.tags)}).",
                about=(wall,),
            )
        elif found.lean_nm > tolerance and found.differ_nm is None:
            lean = said(job, found.lean_nm)
            yield Finding(
                "out_of_square",
                "look",
                (wall, *found.tags),
                f"Out of square by {lean}",
                (
                    "Read the other diagonal too: one alone takes up every error of width and height. If "
                    "both agree, lay out from one plumb line and let filler or scribe take it up."
                ),
                PRACTICE,
                {"lean": lean},
                why=(f"By its one diagonal the top is {lean} to one side of the bottom ({found.off_deg:.2f}°)."),
                about=(wall,),
            )
        elif found.lean_nm > tolerance and found.differ_nm is not None:
            lean, differ = said(job, found.lean_nm), said(job, found.differ_nm)
            yield Finding(
                "out_of_square",
                "look",
                (wall, *found.tags),
                f"Out of square by {lean}",
                ("Lay out from one plumb line, not from the side walls, and let filler or scribe take it up."),
                PRACTICE,
                {"lean": lean, "differ": differ},
                why=(
                    f"The diagonals differ by {differ}, so the top is {lean} to one side of the bottom "
                    f"({found.off_deg:.2f}°)."
                ),
                about=(wall,),
            )


@rule
@from_each(Wall)
def corner_not_square(job: Job, wall: Wall) -> Iterable[Finding]:
    """A corner that 3-4-5 shows to be open or closed by more than the job's tolerance, or that cannot be so."""
    for one in corners(job).get(wall.tag, ()):
        legs = f"{said(job, one.own_nm)} along {wall.tag} and {said(job, one.other_nm)} along the wall beside"
        read = f"{said(job, one.across_nm)} across ({one.tag})"
        if one.found is None:
            yield Finding(
                "corner_not_square",
                "look",
                (wall.tag, one.tag),
                f"The {one.side} corner cannot read {said(job, one.across_nm)}",
                f"Mark {said(job, one.own_nm)} and {said(job, one.other_nm)} again, and read across.",
                PRACTICE,
                {"across": said(job, one.across_nm)},
                why=f"With {legs}, no corner reads {read}.",
                about=(wall.tag,),
            )
        elif abs(one.found.off_nm) > job.settings.tolerance.nm:
            off = sized(job, abs(one.found.off_nm))
            way = "open" if one.found.off_nm > 0 else "closed"
            yield Finding(
                "corner_not_square",
                "look",
                (wall.tag, one.tag),
                f"The {one.side} corner is {way} by {off}",
                "Scribe a filler into it, or build the end that meets it to its angle. Read it again higher up.",
                PRACTICE,
                {"off": off, "over": said(job, one.other_nm)},
                why=f"{legs[0].upper()}{legs[1:]} read {read}; square is {said(job, one.square_nm)}. That is "
                f"{90 + one.found.off_deg:.1f}°.{_at_depth(job, wall, one)}",
                about=(wall.tag,),
            )


def _at_depth(job: Job, wall: Wall, one: CornerRead) -> str:
    """What an open or closed corner leaves or takes along the side of the deepest opening in it."""
    there = deepest_at(job, wall.tag, one.side)
    if there is None or one.found is None:
        return ""
    gap = abs(one.found.off_nm) * there[1] // one.other_nm
    return f" Over the {sized(job, there[1])} depth of {there[0]} that is {sized(job, gap)}."


@rule
def diagonals_misfit(job: Job) -> Iterable[Finding]:
    """Both diagonals longer, or shorter, than the width and the height allow, beyond what these vary by."""
    for wall, found in squareness(job).items():
        if found.misfit_nm is None or found.lean_nm is None:
            continue
        varies = sum(sizes(job)[wall, what].spread.nm for what in ("width", "height"))
        if abs(found.misfit_nm) <= job.settings.tolerance.nm + varies:
            continue
        by, way = said(job, abs(found.misfit_nm)), "longer" if found.misfit_nm > 0 else "shorter"
        yield Finding(
            "diagonals_misfit",
            "look",
            (wall, *found.tags),
            f"Diagonals {by} {way} than width and height allow",
            "Read all four sides and both diagonals again.",
            PRACTICE,
            {"by": by, "way": way},
            why="A side or a diagonal was misread, or opposite sides are not equal.",
            about=(wall,),
        )


@rule
@from_each(Wall)
def out_of_plumb(job: Job, wall: Wall) -> Iterable[Finding]:
    """A wall whose top is farther from plumb than the tolerance over its height, and what stands before it."""
    height = sizes(job).get((wall.tag, "height"))
    worst, tags = 0, []
    for tag, reading in job.of(Reading).items():
        over = reading.over.nm if reading.over is not None else height.least.nm if height is not None else 0
        if reading.what != "out of plumb" or reading.wall != wall.tag or over <= 0:
            continue
        tags.append(tag)
        # Over the whole wall; a level of 4 ft shows half of what 8 ft of wall are off.
        worst = max(worst, reading.value.nm * (height.least.nm if height is not None else over) // over)
    covers = wall.scribe.nm if wall.scribe is not None else 0
    if worst > max(job.settings.tolerance.nm, covers):
        off = sized(job, worst)
        yield Finding(
            "out_of_plumb",
            "fix" if wall.scribe is not None else "look",
            (wall.tag, *tags),
            f"Out of plumb by {off} over its height",
            f"Plan a scribe of at least {off} on what is against it and plumb, or have the wall straightened.",
            PRACTICE,
            {"off": off, "covers": sized(job, covers)},
            why=f"Trim covers {sized(job, covers)} at present." if covers else "No scribe allowance is entered for it.",
            about=(wall.tag,),
        )
