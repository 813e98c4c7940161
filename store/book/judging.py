"""The rules that a change of the book goes past, in one place: imported when there is a change, so that a glance at a
file is taken without them."""

from store.book.outside.pictures import lost_pictures, with_pictures
from store.rules.core.checks import PICTURE
from store.rules.core.taken_off import Listed
from store.rules.gate.claims import guard_claims
from store.rules.gate.gate import CLOSED
from store.rules.gate.guard import guard

__all__ = ["CLOSED", "PICTURE", "Listed", "guard", "guard_claims", "lost_pictures", "with_pictures"]
