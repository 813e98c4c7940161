"""Findings about the wall as measured: readings that disagree, are old or look misread, and a wall that leans."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.dates import show_date
from store.records.wall import Reading, Wall
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.wording import listed, said
from store.rules.wall.readings import sizes
from store.rules.wall.squareness import squareness
from store.trade.measured.survey import odd_readings

PRACTICE = "common practice"


@rule
def spread_beyond_tolerance(job: Job) -> Iterable[Finding]:
    """Readings of one thing that differ by more than the job's tolerance."""
    for (wall, what), size in sizes(job).items():
        if what == "diagonal" or size.spread <= job.settings.tolerance:
            continue
        spread, least = said(job, size.spread.nm), said(job, size.least.nm)
        yield Finding(
            "spread_beyond_tolerance",
            "look",
            (wall, *size.tags),
            f"The {what} readings of {wall} differ by {spread}; the least, {least} ({size.least_tag}), governs.",
            f"Read the {what} once more at each place. If it is so, build to {least} and scribe the rest.",
            PRACTICE,
            {"what": what, "spread": spread, "least": least},
        )


@rule
def scribe_too_small(job: Job) -> Iterable[Finding]:
    """The width varies by more than the trim at the sides can cover."""
    for tag, wall in job.of(Wall).items():
        size = sizes(job).get((tag, "width"))
        if size is None or wall.scribe is None or size.spread <= wall.scribe:
            continue
        needs, covers = said(job, size.spread.nm), said(job, wall.scribe.nm)
        yield Finding(
            "scribe_too_small",
            "fix",
            (tag,),
            f"The width of {tag} varies by {needs}, and the trim is noted to cover {covers}.",
            f"Plan trim or filler that covers at least {needs}, or have the wall made straighter.",
            PRACTICE,
            {"varies": needs, "covers": covers},
        )


@rule
def stale_readings(job: Job) -> Iterable[Finding]:
    """Readings from before the framing was last changed, or that cannot be told from such."""
    by_wall: dict[str, list[Reading]] = {}
    for reading in job.of(Reading).values():
        by_wall.setdefault(reading.wall, []).append(reading)
    for tag, wall in job.of(Wall).items():
        if wall.framed is None:
            continue
        day = show_date(wall.framed)
        old = [each.tag for each in by_wall.get(tag, ()) if each.date is not None and each.date < wall.framed]
        if old:
            yield Finding(
                "stale_readings",
                "look",
                (tag, *old),
                f"{listed(old)} of {tag} {'is' if len(old) == 1 else 'are'} older than its framing, changed on {day}.",
                "Read them again and note the day; take the old ones off the list.",
                PRACTICE,
                {"framed": wall.framed.isoformat()},
            )
        undated = [each.tag for each in by_wall.get(tag, ()) if each.date is None]
        if undated:
            yield Finding(
                "undated_readings",
                "look",
                (tag, *undated),
                f"The framing of {tag} was changed on {day}, and {listed(undated)} "
                f"{'has' if len(undated) == 1 else 'have'} no date: taken before or after?",
                "Note the day of each reading, or read again.",
                PRACTICE,
                {"framed": wall.framed.isoformat()},
            )


@rule
def likely_slips(job: Job) -> Iterable[Finding]:
    """Two readings of one thing that differ as people misread a tape: by a foot, an inch, a whole ten."""
    groups: dict[tuple[str, str], list[Reading]] = {}
    for reading in job.of(Reading).values():
        groups.setdefault((reading.wall, reading.what), []).append(reading)
    for (_, what), group in groups.items():
        for odd in odd_readings([each.value.nm for each in group]):
            one, other = group[odd.index], group[odd.against]
            differ = said(job, abs(one.value.nm - other.value.nm))
            yield Finding(
                "likely_slip",
                "look",
                (one.tag, other.tag),
                f"{one.tag} and {other.tag}, both the {what}, differ by {differ}: that looks like a slip of the tape "
                f"by {odd.slip.name}.",
                f"Read {one.tag} and {other.tag} again, each by a second person, and mend the wrong one.",
                PRACTICE,
                {"differ": differ, "slip": odd.slip.name},
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
                f"No wall has the width, the height and the diagonals ({listed(found.tags)}) that were read of {wall}.",
                "Read width, height and both diagonals again, corner to corner, with the tape straight.",
                PRACTICE,
                {"diagonals": ", ".join(found.tags)},
            )
        elif found.lean_nm > tolerance and found.differ_nm is None:
            lean = said(job, found.lean_nm)
            yield Finding(
                "out_of_square",
                "look",
                (wall, *found.tags),
                f"By its one diagonal {wall} is out of square: the top would stand {lean} to one side of the bottom "
                f"({found.off_deg:.2f}°).",
                "Read the other diagonal too: one alone takes up every error of width and height. If both say so, set "
                "the work out from one plumb line and let filler or scribe take it up.",
                PRACTICE,
                {"lean": lean},
            )
        elif found.lean_nm > tolerance and found.differ_nm is not None:
            lean, differ = said(job, found.lean_nm), said(job, found.differ_nm)
            yield Finding(
                "out_of_square",
                "look",
                (wall, *found.tags),
                f"{wall} is out of square: its diagonals differ by {differ}, so the top stands {lean} to one side "
                f"of the bottom ({found.off_deg:.2f}°).",
                "Set the work out from one plumb line, not from the side walls, and let filler or scribe take it up.",
                PRACTICE,
                {"lean": lean, "differ": differ},
            )


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
            f"The diagonals of {wall} are {by} {way} than its width and height allow.",
            "A side or a diagonal was misread, or opposite sides are not equal: read all four sides and both diagonals "
            "again.",
            PRACTICE,
            {"by": by, "way": way},
        )
