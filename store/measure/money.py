"""Money in whole minor units (cents); no float ever holds an amount."""

from __future__ import annotations

import re
from typing import NewType

from store.measure.errors import BadValue

Money = NewType("Money", int)
"""An amount in minor units of the job's currency: 1999 is 19.99."""

_SIGNS = {"USD": "$", "CAD": "$", "AUD": "$", "NZD": "$", "EUR": "€", "GBP": "£"}
_FORM = re.compile(r"(-?)\s*(\d{1,3}(?:,\d{3})+|\d+)?(?:\.(\d{1,2}))?", re.ASCII)


def parse_money(text: str) -> Money:
    """Read `1,234.50`, `$80` or `80`; a comma only groups thousands. Raises BadValue."""
    plain = text.strip().upper()
    for sign in (*_SIGNS, "$", "€", "£", " ", "\u00a0"):
        plain = plain.replace(sign, "")
    plain = plain.replace("−", "-")
    if not plain:
        raise BadValue("an amount is missing: write it like 1,234.50")
    found = _FORM.fullmatch(plain) if len(plain) <= 24 else None
    if found is None or (found[2] is None and found[3] is None):
        raise BadValue(
            f"{text.strip()[:40]!r} is not an amount: write it like 1,234.50 (the point is for cents)"
        )
    minor = int((found[2] or "0").replace(",", "")) * 100 + int((found[3] or "0").ljust(2, "0"))
    return Money(-minor if found[1] else minor)


def show_money(amount: Money | int, currency: str = "") -> str:
    """`1,234.50`, with the currency's sign in front when it has one and is given (`$1,234.50`)."""
    whole, cents = divmod(abs(amount), 100)
    return f"{'-' if amount < 0 else ''}{_SIGNS.get(currency, '')}{whole:,}.{cents:02d}"
