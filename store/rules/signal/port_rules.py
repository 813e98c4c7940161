"""Findings about ports that nobody knows: no cable can be judged by them."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.equipment import Equipment
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.trade.signal.ports import port_key


@rule
@from_each(Equipment)
def port_unknown(job: Job, one: Equipment) -> Iterable[Finding]:
    """A port of a device in use that is none of the list."""
    odd = [text for text in one.ports if text.strip() and not port_key(text)] if one.retired is None else []
    if odd:
        yield Finding(
            "port_unknown",
            "look",
            (one.tag,),
            "Unknown port",
            "Pick it from the list, like hdmi in, 2x ethernet or speaker out.",
            "common practice",
            {"ports": ", ".join(odd)},
            why=f"{', '.join(repr(each[:40]) for each in odd)}: not on the list, so no cable is matched to it.",
        )
