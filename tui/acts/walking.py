"""A walk through the rough-in items, one at a time: which it is, what closes it, and what comes next. Nothing here
draws."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from msgspec.structs import replace

from store.book.changes import Change, set_down
from store.measure.dates import echo_date, parse_date
from store.measure.errors import BadValue
from store.measure.text import capital
from store.records.gate import Proof
from store.rules.agenda.walk_order import ORDERS, Order, subject_of, walk_order
from store.rules.core.checks import Item, close
from store.rules.core.proof import FOR_MANY, kinds_for, proof_missing
from store.rules.core.wording import plural
from store.rules.gate.by_trade import aspect_of
from tui.acts.closings import closing_changes, reopening_changes
from tui.acts.sign_off import closing_of, with_pictures
from tui.shared.walked import Walked, keep_walk, walked
from tui.view.desk import SAME_LINE, Desk

KINDS_SHORT: dict[Proof, str] = {
    "photo": "photo",
    "test": "reading with its unit",
    "inspection": "inspection (office, reference, day)",
    "seen": "what was seen",
}
"""Kinds of proof in the fewest words: they are read again on every item."""


FOR_ONE = "A reading is for one item. c = this one alone"


class Walking:
    """Where the walk is."""

    def __init__(self, desk: Desk, only: Sequence[str] = (), start: str = "") -> None:
        self.desk = desk
        self._only = frozenset(only)
        """Keys of the items that are walked; empty for all."""
        self._kept: Walked = walked(desk.book.path)
        self.by: Order = next((each for each in ORDERS if each == self._kept.by), ORDERS[0])
        self.name = self._kept.name or desk.who()
        self.day: date = desk.state.job.today
        self.said = ""
        self._done: list[str] = []
        """Keys that were signed off on this walk, for going back."""
        open_ones = [key for key in self.keys if self._is_open(key)]
        wanted_first = (start, self._kept.at)
        self.at = next((key for key in wanted_first if key in open_ones), open_ones[0] if open_ones else "")

    # --- where it is ---

    @property
    def keys(self) -> list[str]:
        """All items of this walk in their order."""
        order = walk_order(self.desk.state.job, self.by)
        return [key for key in order if not self._only or key in self._only]

    @property
    def item(self) -> Item | None:
        """The item that is looked at; None when none is left, or when it left the list meanwhile."""
        return self.desk.state.item(self.at) if self.at else None

    @property
    def subject(self) -> str:
        """The thing on the wall that it is about."""
        return subject_of(self.desk.state.job, self.item) if self.item else ""

    @property
    def done(self) -> tuple[int, int]:
        """How many of this walk are done, of how many."""
        keys = self.keys
        return sum(not self._is_open(key) for key in keys), len(keys)

    def _is_open(self, key: str) -> bool:
        item = self.desk.state.item(key)
        return item is not None and item.open

    def step(self, by: int) -> None:
        """Forward to the next item that is open, or back to the one before, open or not."""
        keys = self.keys
        if not keys:
            self.at = ""
            return
        here = keys.index(self.at) if self.at in keys else -1 if by > 0 else 0
        if by < 0:
            self.at = keys[(here - 1) % len(keys)]
            return
        ahead = [*keys[here + 1 :], *keys[: here + 1]]
        following = next((key for key in ahead if self._is_open(key)), "")
        if following and following == self.at:
            self.said = "This is the only one left"
        self.at = following
        self._keep()

    def turn(self) -> None:
        """Walk in the other order, from the same item."""
        self.by = ORDERS[(ORDERS.index(self.by) + 1) % len(ORDERS)]
        self.said = f"Order: {self.by}"
        self._keep()

    # --- signing off ---

    def alike(self) -> list[Item]:
        """The open items of this one's aspect and trade, itself first; only itself where it was written by hand."""
        item = self.item
        if item is None:
            return []
        aspect = aspect_of(item.key)
        others = [
            each
            for each in self.desk.state.standing.open
            if aspect
            and each.key != item.key
            and aspect_of(each.key) == aspect
            and each.check.trade == item.check.trade
        ]
        return [item, *others]

    def suggested(self) -> str:
        """What was written last for the like of it. A reading is of one thing, and what was written by hand is like
        nothing: none is suggested."""
        item = self.item
        if item is None or not aspect_of(item.key) or not FOR_MANY & set(kinds_for(item.check)):
            return ""
        return self._kept.words.get(_like(item), "")

    def asked(self) -> str:
        """What to type for this item."""
        item = self.item
        if item is None:
            return ""
        like = f" Like: {item.check.test.example}" if item.check.test is not None else ""
        kinds = [KINDS_SHORT[each] for each in kinds_for(item.check)]
        words = f"{', '.join(kinds[:-1])} or {kinds[-1]}" if len(kinds) > 1 else kinds[0]
        return f"{words}.{like}"

    def sign_off(self, words: str, *, alike: bool = False) -> bool:
        """Sign off the item, or all of its like, on what was typed; what is no proof is said, and nothing is saved."""
        group = self.alike() if alike else self.alike()[:1]
        try:
            proof = with_pictures(self.desk, words)
            closings = [closing_of(self.desk, each.check, proof, self.name, self.day) for each in group]
        except BadValue as error:
            self.said = error.sentence
            return False
        if len(closings) > 1 and closings[0].proof not in FOR_MANY:
            self.said = FOR_ONE
            return False
        job, first = self.desk.state.job, group[0]
        what = (
            f"Sign off {first.key}: {first.check.what}" if len(group) == 1 else f"Sign off {len(group)} {_like(first)}"
        )
        if closings[0].proof in FOR_MANY:
            self._kept.words[_like(first)] = proof
        return self._save(what, closing_changes(job, closings), group, "Signed off")

    def not_needed(self, reason: str, by: str, office: str = "") -> bool:
        """Say who says why an item is not needed."""
        item = self.item
        if item is None:
            return False
        closing = replace(close(item.check, by, self.day, reason=reason), office=office)
        if wrong := proof_missing(item.check, closing):
            self.said = f"{capital(wrong)}."
            return False
        what = f"Not needed {item.key}: {item.check.what}"
        return self._save(what, [set_down(self.desk.state.job, closing)], [item], "Not needed", reason)

    def _save(self, what: str, changes: Sequence[Change], group: Sequence[Item], verb: str, why: str = "") -> bool:
        if not self.desk.act(what, changes, why, at=SAME_LINE):
            self.said = self.desk.told
            return False
        self._done.append(group[0].key)
        which = group[0].key if len(group) == 1 else plural(len(group), "item")
        self.step(1)
        self.said = f"{verb} {which}. {self.desk.change}".rstrip() + " u = undo"
        return True

    def reopen(self) -> None:
        """Open an item again that was signed off."""
        item = self.item
        if item is None or item.closing is None:
            self.said = "This item is open"
        elif self.desk.act(
            f"Reopen {item.key}: {item.check.what}", reopening_changes(self.desk.state.job, item.closing), at=SAME_LINE
        ):
            self.said = f"Reopened {item.key}. u = undo"
        else:
            self.said = self.desk.told

    def undo(self) -> None:
        """Undo the last change; the walk goes back to its item where it was one of the walk."""
        self.desk.undo()
        self.said = self.desk.told
        if self._done and self._is_open(self._done[-1]):
            self.at = self._done.pop()

    def sign_as(self, name: str) -> None:
        """Who signs off from now on."""
        self.name = name
        self.said = f"Signed off by {name}"
        self._keep()

    def sign_on(self, typed: str) -> None:
        """The day of the sign-offs from now on. A day to come is refused."""
        job = self.desk.state.job
        try:
            day = parse_date(typed, job.today, day_first=job.manner.day_first, when="past")
        except BadValue as error:
            self.said = error.sentence
            return
        if day > job.today:
            self.said = f"{echo_date(day, job.manner.day_first)} is still to come"
            return
        self.day = day
        self.said = f"Signed off by {self.name}, {echo_date(day, job.manner.day_first)}"

    def _keep(self) -> None:
        self._kept.at, self._kept.by, self._kept.name = self.at, self.by, self.name
        keep_walk(self.desk.book.path, self._kept)


def _like(item: Item) -> str:
    """What items have in common that one proof may stand for: `pulled of the electrician`."""
    return f"{aspect_of(item.key) or 'items'} of the {item.check.trade}"
