"""A form with a line for each of some rough-in items, as on the paper that comes back."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Annotated, cast

import msgspec

from store.records.base import Record
from store.records.field import F
from store.rules.core.checks import Item
from store.rules.core.proof import kinds_for, wanted

DITTO = '"'
"""Alone on a line it stands for the line above, as on paper."""
LINES = f"What the signed sheet says (blank = stays open; {DITTO} = same as above)"


def sheet_form(items: Sequence[Item]) -> type[Record]:
    """A form with who signed, when, and one line for each check, in the order of the sheet."""
    lines = [
        (line_of(number), Annotated[str, F(item.key, _help(item), group=LINES if number == 0 else "")], "")
        for number, item in enumerate(items)
    ]
    signed = [("by", Annotated[str, F("signed by", must=True)]), ("day", Annotated[date, F("signed on")])]
    made = msgspec.defstruct("SignedSheet", [*signed, *lines], bases=(Record,), frozen=True, kw_only=True)
    return cast("type[Record]", made)


def line_of(number: int) -> str:
    """The key of the field of an item's line."""
    return f"line{number}"


def _help(item: Item) -> str:
    check = item.check
    asked = f" Asked for: {check.wants}." if check.wants else ""
    return f"{check.what}.{asked} Needs: {wanted(kinds_for(check))}"
