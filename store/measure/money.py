"""Money in whole minor units (cents); no float ever holds an amount."""

from __future__ import annotations

import re
from typing import NewType

from store.measure.errors import BadValue

Money = NewType("Money", int)
"""An amount in minor units of the job's currency: 1999 is 19.99."""

_SIGNS = {"USD": "$", "CAD": "$", "AUD": "$", "NZD": "$", "EUR": "€", "GBP": "£", "JPY": "¥"}
_CODES = (*_SIGNS, "BGN", "BRL", "CHF", "CNY", "CZK", "DKK", "HKD", "HUF", "ILS", "INR", "ISK", "KRW", "MXN", "NOK",
          "PHP", "PLN", "RON", "SEK", "SGD", "THB", "TRY", "TWD", "UAH", "ZAR")  # fmt: skip
"""Codes that are read beside an amount (ISO 4217); a job may name another."""
_WHOLE_ONLY = frozenset({"CLP", "ISK", "JPY", "KRW", "PYG", "UGX", "VND", "XAF", "XOF", "XPF"})
"""Currencies that have no cents (ISO 4217, minor unit 0)."""
MOST = 10**11
"""Minor units: a billion of the currency; a larger amount is a slip of the hand."""
_SIGN = rf"(?:{'|'.join(_CODES)}|[$€£¥])?"
_FORM = (
    rf"(-?) ?{_SIGN} ?(?P<minus>-?)(?P<whole>\d{{1,3}}(?:,\d{{3}})+|\d{{1,3}}(?: \d{{3}})+|\d+)?"
    rf"(?:\.(?P<cents>\d{{1,2}}))? ?{_SIGN}"
)

_CODE = re.compile(r"[A-Z]{3}", re.ASCII)


def parse_money(text: str) -> Money:
    """Read `1,234.50`, `$80`, `80 EUR` or `-80`; a comma or a space only groups thousands. Raises BadValue."""
    plain = " ".join(text.upper().replace("−", "-").split())
    if not plain:
        raise BadValue("an amount is missing: write it like 1,234.50")
    found = re.fullmatch(_FORM, plain, re.ASCII) if len(plain) <= 24 else None
    if found is None or (found["whole"] is None and found["cents"] is None) or (found[1] and found["minus"]):
        raise BadValue(f"{text.strip()[:40]!r} is not an amount: write it like 1,234.50 (the point is for cents)")
    whole = (found["whole"] or "0").replace(",", "").replace(" ", "")
    minor = int(whole) * 100 + int((found["cents"] or "0").ljust(2, "0"))
    if minor > MOST:
        raise BadValue(f"{text.strip()[:40]!r} is more than a billion: check the amount")
    return Money(-minor if found[1] or found["minus"] else minor)


def show_money(amount: Money | int, currency: str = "", *, bare: bool = False) -> str:
    """`1,234.50`; with the sign of a currency that is given (`$1,234.50`), or its code (`CHF 1,234.50`).

    In a column of amounts it is `bare`: without either. A currency that has no cents is shown in whole units, a half
    rounded away from nothing (`¥1,235`).
    """
    code = currency.strip().upper()
    sign = "" if bare else _SIGNS.get(code) or (f"{code} " if _CODE.fullmatch(code) else "")
    minus = "-" if amount < 0 else ""
    if code in _WHOLE_ONLY:
        return f"{minus}{sign}{(abs(amount) + 50) // 100:,}"
    whole, cents = divmod(abs(amount), 100)
    return f"{minus}{sign}{whole:,}.{cents:02d}"
