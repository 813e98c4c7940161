"""Findings about shelves that bend under what stands on them."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.mass import KILOGRAM_UG, POUND_UG
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.wording import listed, named, said
from store.rules.fit.shelves import shelves


@rule
def shelf_sags(job: Job) -> Iterable[Finding]:
    """A shelf that shows its load: it sags more than the eye overlooks under what is noted to stand on it."""
    for tag, one in shelves(job).items():
        if one.sag_nm <= one.limit_nm:
            continue
        load, sag, limit = f"{one.load_lbf:.0f} lb", said(job, one.sag_nm), said(job, one.limit_nm)
        if job.settings.metric:
            load = f"{one.load_lbf * POUND_UG / KILOGRAM_UG:.0f} kg"
        yield Finding(
            "shelf_sags",
            "look",
            (tag, *one.standing),
            f"The board under {listed(one.standing)} in {named(job, tag)}, {one.material} over "
            f"{said(job, one.span_nm)}, comes to sag about {sag} under {load}, spread "
            f"along it; more than about {limit} is seen.",
            "A thicker board, a strip glued along its front edge, a support in the middle or a shorter span. Pins and "
            "what they stand in must carry the weight too.",
            f"{one.source}; beam formulas: Roark; lasting load: NDS 3.5.2, from memory; sag that is seen, span / 600: "
            "common practice",
            {"load": load, "sag": sag, "limit": limit},
        )
