"""What a sign-off tells of the records: what was set, run or pulled was bought, whatever its record still says."""

from __future__ import annotations

from typing import Literal

from store.records.gate import Closing
from store.records.whole import Job
from store.records.wiring import Cable

CableState = Literal["planned", "bought", "pulled", "connected"]


def was_done(job: Job, key: str) -> bool:
    """True once somebody signed an item off as done; also while a change since has opened it again."""
    closing = job.of(Closing).get(key)
    return closing is not None and closing.outcome == "closed"


def cable_state(job: Job, cable: Cable) -> CableState:
    """The state of a cable: at least pulled once its pulling is signed off."""
    if cable.state in ("planned", "bought") and was_done(job, f"{cable.tag}/pulled"):
        return "pulled"
    return cable.state
