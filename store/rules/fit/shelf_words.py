"""What would do for a shelf, in words."""

from __future__ import annotations

from store.records.whole import Job
from store.rules.core.amounts import fine
from store.rules.core.wording import said
from store.trade.build.shelving import Would


def way_text(job: Job, one: Would) -> str:
    """One thing that would do, with its number."""
    leaves = f" (sags {fine(job, one.sag_nm)})"
    return {
        "thicker": f"a board {said(job, one.nm)} thick{leaves}",
        "strip": f"a 3/4 in strip {said(job, one.nm)} high glued along its front edge{leaves}",
        "middle": f"one more support{leaves}",
        "shorter": f"a span of {said(job, one.nm)} at most",
        "material": f"{one.material} of the same size{leaves}",
    }[one.what]
