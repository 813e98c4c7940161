"""The sum of a shelf and what would do for it, in words."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import INCH_NM
from store.records.whole import Job
from store.rules.core.amounts import fine, heavy
from store.rules.core.wording import said
from store.rules.fit.shelves import Shelf, what_would_do
from store.trade.build.shelving import Would, on_supports_lbf

DECIDES = (
    "the manufacturer of the pins or brackets rates them and wins; a floor under a wall full of books, and a bearing "
    "wall, are for a licensed person"
)
PASCAL_OF_PSI = 6894.757
"""NIST SP 811 (2008), appendix B.8."""


def way_text(job: Job, one: Would) -> str:
    """One thing that would do, with its number."""
    thick = said(job, 3 * INCH_NM // 4)
    leaves = f" (sags {fine(job, one.sag_nm)})"
    return {
        "thicker": f"a board {said(job, one.nm)} thick{leaves}",
        "strip": f"a strip {thick} thick and {said(job, one.nm)} high glued along its front edge{leaves}",
        "middle": f"one more support{leaves}",
        "shorter": f"a span of {said(job, one.nm)} at most",
        "material": f"{one.material} of the same size{leaves}",
    }[one.what]


def shelf_lines(job: Job, one: Shelf) -> Iterable[str]:
    """The sum as a person can follow it."""
    board = one.board
    under = (
        ("books at 30 kg a meter" if job.settings.metric else "books at 20 lb a foot")
        if one.for_books
        else "what is placed there"
    )
    size = f"{said(job, board.span_nm)} long, {said(job, board.depth_nm)} deep, {said(job, board.thick_nm)} thick"
    yield f"{board.material}, {size}, supported by {board.held}"
    for strip in board.strips:
        yield f"with a strip {said(job, strip.thick_nm)} x {said(job, strip.high_nm)}"
    if board.middle:
        yield f"{board.middle} between the ends" if board.held != "brackets" else f"{board.middle} brackets"
    stiff = board.made_of.low_psi
    stiffness = f"{stiff * PASCAL_OF_PSI / 1e9:.1f} GPa" if job.settings.metric else f"{stiff / 1e6:g} million psi"
    yield f"load {heavy(job, one.judged_lbf)}, {under}; stiffness {stiffness}"
    for patch in one.patches:
        low, high = (said(job, round(each * board.span_nm)) for each in (patch.left, patch.right))
        yield f"of it {heavy(job, patch.lbf)} from {low} to {high} along it, where that stands"
    yield f"lasting load x {board.made_of.creep:g}: sags {fine(job, one.sag_nm)}"
    yield f"limit {said(job, board.span_nm)} / {one.ratio} = {fine(job, one.limit_nm)}"
    if one.sag_nm > one.limit_nm:
        yield from (f"would work: {way_text(job, each)}" for each in what_would_do(one))
    yield from _supports(job, one)


def _supports(job: Job, one: Shelf) -> Iterable[str]:
    """What its supports carry, and who decides."""
    board = one.board
    most = max(on_supports_lbf(board, one.judged_lbf, one.place, one.patches))
    if board.held == "brackets":
        yield f"the most loaded bracket carries {heavy(job, most)}"
    else:
        where = "end or support" if board.middle else "end"
        pins = f", each of two pins {heavy(job, most / 2)}" if board.held == "pins" else ""
        yield f"the most loaded {where} carries {heavy(job, most)}{pins}"
    yield DECIDES
