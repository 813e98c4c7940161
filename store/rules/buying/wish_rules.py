"""Findings about wishes: what is wanted, and nothing on the list makes it come true."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.people import Wish
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each


@rule
@from_each(Wish)
def wish_not_served(job: Job, wish: Wish) -> Iterable[Finding]:
    """A wish that is kept, and served by nothing that is still there."""
    tag = wish.tag
    servers = [job.get(each) for each in wish.served_by]
    if wish.kept != "kept" or any(each is not None and getattr(each, "retired", None) is None for each in servers):
        return
    gone = ", ".join(wish.served_by)
    yield Finding(
        "wish_not_served",
        "look",
        (tag,),
        "No plan for this wish",
        "Enter what serves it, or drop it and enter why.",
        "the owner's own list",
        {"served by": gone or "nothing"},
        why=(
            f"“{wish.what}” is kept, but what served it ({gone}) is out of use."
            if gone
            else f"“{wish.what}” is kept, and nothing is entered that serves it."
        ),
    )
