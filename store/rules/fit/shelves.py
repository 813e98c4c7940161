"""The boards that things stand on: how far they sag under what is noted to stand there, and under books."""

from __future__ import annotations

from collections.abc import Mapping

import msgspec

from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.keyed import by_key
from store.rules.wall.contents import inside_of
from store.rules.wall.layout import in_opening
from store.rules.wall.pieces import hangs
from store.trade.fit.shelf import (
    BOOKS_LBF_PER_FT,
    MATERIALS,
    Material,
    even_load_lbf,
    longest_span_nm,
    sag_limit_nm,
    sag_nm,
    stiffness_in4,
)

SHELVES = ("shelf", "equipment", "other")
"""Uses of an opening in which things stand on its bottom board."""
_BY_NAME = {name.lower(): name for name in MATERIALS}


class Shelf(msgspec.Struct, frozen=True):
    """The bottom board of an opening, held at its two ends, as thick as the sides. Lengths in nanometres."""

    material: str
    source: str
    span_nm: int
    load_lbf: float
    """What is noted to stand on it."""
    standing: tuple[str, ...]
    sag_nm: int
    limit_nm: int
    """The sag that the eye sees."""
    books_nm: int
    """Its sag under books along all of it."""
    longest_nm: int
    """The longest span that carries books within that limit."""


@by_key
def shelves(job: Job) -> Mapping[str, Shelf]:
    """Every shelf whose make and size are noted, by the tag of its opening. Lasting load, softest of the material."""
    found = {}
    for tag, opening in job.of(Opening).items():
        name = _BY_NAME.get(opening.material.strip().lower(), "")
        inside = inside_of(opening)
        span, deep, thick = inside.width_nm, inside.depth_nm, opening.thickness
        if opening.use not in SHELVES or not name or thick is None or not thick.nm or not span or not deep:
            continue
        if min(span, deep, thick.nm) > 0:
            found[tag] = _shelf(job, tag, name, span, stiffness_in4(deep, thick.nm))
    return found


def _shelf(job: Job, tag: str, name: str, span: int, stiff: float) -> Shelf:
    made: Material = MATERIALS[name]
    here = {
        one.tag: one.weight.pounds * one.count
        for one in in_opening(job).get(tag, ())
        if one.weight is not None and not hangs(one)
    }
    load = sum(here.values())
    books = even_load_lbf(span, BOOKS_LBF_PER_FT)
    return Shelf(
        name,
        made.source,
        span,
        load,
        tuple(here),
        sag_nm(span, stiff, made.low_psi, load, creep=made.creep),
        sag_limit_nm(span),
        sag_nm(span, stiff, made.low_psi, books, creep=made.creep),
        longest_span_nm(stiff, made.low_psi, BOOKS_LBF_PER_FT, creep=made.creep),
    )
