"""Money in whole minor units (cents); no float ever holds an amount."""

from __future__ import annotations

import re
from typing import NewType

from store.measure.errors import BadValue, quoted

Money = NewType("Money", int)
"""An amount in minor units of the job's currency: 1999 is 19.99, and 1.999 where it has three decimals."""

_SIGNS = {"USD": "$", "CAD": "$", "AUD": "$", "NZD": "$", "EUR": "€", "GBP": "£", "JPY": "¥"}
_THOUSANDTHS = frozenset({"BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"})
"""Currencies with a thousandth for their smallest part (ISO 4217, minor unit 3)."""
_WHOLE_ONLY = frozenset({"CLP", "ISK", "JPY", "KRW", "PYG", "UGX", "VND", "XAF", "XOF", "XPF"})
"""Currencies that have no cents (ISO 4217, minor unit 0)."""
CODES = frozenset((
    *_SIGNS, *_THOUSANDTHS, *_WHOLE_ONLY, "AED", "ARS", "BGN", "BRL", "CHF", "CNY", "COP", "CZK", "DKK", "EGP", "HKD",
    "HUF", "IDR", "ILS", "INR", "MAD", "MXN", "MYR", "NOK", "PEN", "PHP", "PLN", "QAR", "RON", "RSD", "SAR", "SEK",
    "SGD", "THB", "TRY", "TWD", "UAH", "UYU", "ZAR",
))  # fmt: skip
"""Codes that are read beside an amount (ISO 4217); a job may name another."""
_WRITTEN: dict[str, tuple[str, ...]] = {
    "$": ("USD", "CAD", "AUD", "NZD", "HKD", "SGD", "TWD", "MXN", "ARS", "CLP", "COP", "UYU"),
    "US$": ("USD",), "C$": ("CAD",), "CA$": ("CAD",), "A$": ("AUD",), "AU$": ("AUD",), "NZ$": ("NZD",),
    "HK$": ("HKD",), "S$": ("SGD",), "R$": ("BRL",), "€": ("EUR",), "£": ("GBP", "EGP"), "¥": ("JPY", "CNY"),
    "₩": ("KRW",), "₹": ("INR",), "₪": ("ILS",), "₺": ("TRY",), "₴": ("UAH",), "฿": ("THB",), "₱": ("PHP",),
    "₫": ("VND",), "ZŁ": ("PLN",), "KČ": ("CZK",), "FT": ("HUF",), "KR": ("SEK", "NOK", "DKK", "ISK"),
    "FR": ("CHF", "XAF", "XOF", "XPF"), "SFR": ("CHF",), "LEI": ("RON",),
}  # fmt: skip
"""Signs that people write, in capitals, and the currencies that each may mean."""
MOST = 10**11
"""Minor units: a billion of a currency with cents; a larger amount is a slip of the hand."""
_SIGN = r"(?:[A-Z]{0,3}[$€£¥₩₹₪₺₴฿₱₫]|ZŁ|KČ|[A-Z]{2,3})"
_NUMBER = (
    r"(?P<whole>[1-9]\d{0,2}(?:,\d{3})+|[1-9]\d{0,2}(?: \d{3})+|\d+)?"
    r"(?:\.(?P<cents>\d{1,3}0*))?"
)
_FORM = rf"(?P<first>-?) ?(?P<before>{_SIGN}(?:\.(?!\d))?)? ?(?P<minus>-?){_NUMBER} ?(?P<after>{_SIGN}\.?)?"

_CODE = re.compile(r"[A-Z]{3}", re.ASCII)


def decimals_of(currency: str) -> int:
    """Decimals in which amounts of a currency are kept: 3 where it has thousandths, else 2."""
    return 3 if currency.strip().upper() in _THOUSANDTHS else 2


def currencies_of(words: str) -> tuple[str, ...]:
    """The currencies that a sign or a code may mean; none for words that are neither."""
    plain = words.strip().upper().rstrip(".")
    return (plain,) if plain in CODES else _WRITTEN.get(plain, ())


def parse_money(text: str, currency: str = "") -> Money:
    """Read `1,234.50`, `$80`, `80 EUR` or `-80`, of a job that counts in `currency`.

    A comma or a space only groups thousands. Raises BadValue, also for the sign or code of another currency: nobody
    here knows what it is worth.
    """
    plain = " ".join(text.upper().replace("−", "-").split())
    if not plain:
        raise BadValue("no amount entered. Write 1,234.50.")
    found = re.fullmatch(_FORM, plain, re.ASCII) if len(plain) <= 24 else None
    own = currency.strip().upper()
    if found is None or not _is_amount(found, own):
        raise BadValue(f"{quoted(text)} is not an amount. Write 1,234.50, with a point for cents.")
    for sign in (found["before"], found["after"]):
        if sign and own and own not in _named(sign, own):
            raise BadValue(f"{quoted(text)} is not in {own}. Write the amount in {own}, without a sign.")
    places = decimals_of(own)
    cents = (found["cents"] or "").rstrip("0")
    if len(cents) > places or len(found["cents"] or "") == 3 > places:
        raise BadValue(f"{quoted(text)} is not an amount. Write 1,234.50, with a point for cents.")
    whole = (found["whole"] or "0").replace(",", "").replace(" ", "")
    minor = int(whole) * 10**places + int(cents.ljust(places, "0"))
    if minor > MOST:
        raise BadValue(f"{quoted(text)} is more than a billion. Check the amount.")
    return Money(-minor if found["first"] or found["minus"] else minor)


def _named(sign: str, own: str) -> tuple[str, ...]:
    plain = sign.rstrip(".")
    return (own,) if plain == own else currencies_of(plain)


def _is_amount(found: re.Match[str], own: str) -> bool:
    """True for digits with at most one minus, and no word beside them that is no currency."""
    if (found["whole"] is None and found["cents"] is None) or (found["first"] and found["minus"]):
        return False
    return all(_named(sign, own) for sign in (found["before"], found["after"]) if sign)


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
    return f"{minus}{sign}{exact_money(abs(amount), code)}"


def exact_money(amount: Money | int, currency: str = "") -> str:
    """An amount with all of its decimals and without a sign of its currency: reads back to the same."""
    places = decimals_of(currency)
    whole, cents = divmod(abs(amount), 10**places)
    return f"{'-' if amount < 0 else ''}{whole:,}.{cents:0{places}d}"
