"""Figures of openings and of what stands in them."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import Length
from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.figures import Figure, figures_of
from store.rules.fit.fit import needs_of, pieces, shared
from store.rules.wall.pieces import inside_of
from store.trade.fit.pieces import Size


@figures_of("opening")
def clear_sizes(job: Job) -> Iterable[Figure]:
    """The clear size inside each opening, and how the pieces in it stand side by side."""
    for tag, one in job.of(Opening).items():
        yield from _sizes(tag, "clear", inside_of(one))
    for tag, found in shared(job).items():
        yield from _lengths(tag, {"row_needs": found.row.needed_nm, "row_spare": found.row.spare_nm})
        yield tag, "row_verdict", found.row.verdict


@figures_of("equipment")
def fits(job: Job) -> Iterable[Figure]:
    """What each piece needs, what is spare on each side beyond its clearances, and the verdict.

    `spare_front` is with the piece pushed back as far as plugs and clearance let it, `spare_behind` with it pulled
    to the front; both are what is spare of the depth.
    """
    placed = pieces(job)
    for tag, one in job.of(Equipment).items():
        if one.retired is not None:
            continue
        found = placed.get(tag)
        yield from _sizes(tag, "needs", found.needs if found else needs_of(job, one))
        if found is None:
            continue
        spares = {
            "spare_left": found.left_nm,
            "spare_right": found.right_nm,
            "spare_top": found.top_nm,
            "spare_bottom": found.bottom_nm,
            "spare_front": found.depth_spare_nm,
            "spare_behind": found.depth_spare_nm,
            "spare_width": found.width_spare_nm,
            "spare_height": found.height_spare_nm,
            "spare_depth": found.depth_spare_nm,
        }
        yield from _lengths(tag, spares)
        yield tag, "verdict", found.verdict
        yield tag, "missing", list(found.missing)
        if found.way_in is not None:
            yield tag, "way_in", found.way_in.verdict


def _sizes(tag: str, prefix: str, size: Size) -> Iterable[Figure]:
    named = {"width": size.width_nm, "height": size.height_nm, "depth": size.depth_nm}
    return _lengths(tag, {f"{prefix}_{name}": nm for name, nm in named.items()})


def _lengths(tag: str, named: dict[str, int | None]) -> Iterable[Figure]:
    """The figures that are known; one that is not known is left out."""
    for name, nm in named.items():
        if nm is not None:
            yield tag, name, Length(nm)
