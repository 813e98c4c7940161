"""Equipment: what is still to buy, ordered and owned, at a glance."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from msgspec.structs import replace

from store.book.changes import edit
from store.measure.money import show_money
from store.records.equipment import BUYING, Equipment
from store.records.field import SAID
from store.rules.buying.returns import NEAR_DAYS, return_days_left
from store.rules.core.wording import date_text, plural
from store.rules.gate.status import buying_totals
from tui.acts.reaching import WAY_KEY
from tui.acts.replacing import change
from tui.view.desk import Desk
from tui.view.state import State
from tui.view.view import Key, KindView
from tui.widgets.record_table import Column, Line

CAUTION = (
    "Planning aid, not an approval. Line voltage: licensed electrician where the law requires "
    "one. Never run a cord or power strip in or through a wall. A heater needs a receptacle of "
    "its own, never a power strip."
)
SIGNS = {"to buy": "○ to buy", "ordered": "◐ ordered", "owned": "● owned"}


def _move(desk: Desk, key: str, by: int) -> None:
    one = desk.state.job.of(Equipment).get(key)
    if one is None:
        return
    at = BUYING.index(one.state) + by
    if not 0 <= at < len(BUYING):
        desk.say(f"{key} is {one.state}: nothing {'after' if by > 0 else 'before'} that")
        return
    state, today = BUYING[at], desk.state.job.today
    new = replace(one, state=state)
    if state == "ordered" and by > 0 and one.ordered is None:
        new = replace(new, ordered=today)
    if state == "owned" and one.arrived is None:
        new = replace(new, arrived=today)
    if desk.act(f"{key} {one.name}: {state}", [edit(one, new)]):
        desk.done(f"{key} {one.name} is {state} now. u = undo")


def _propose(desk: Desk, key: str) -> None:
    """Give what is unplugged a place to plug in, in one act that u takes back, and show where everything plugs in."""
    from store.rules.plug.listing import plug_lines
    from store.rules.plug.proposal import plan_plugs

    things = desk.state.job.of(Equipment)
    plan = plan_plugs(desk.state.job)
    changes = [edit(things[tag], replace(things[tag], plug=at, half=half)) for tag, at, half in plan.placed]
    if changes and not desk.act(f"Plug in {plural(len(changes), 'proposed plug')}", changes):
        return
    title = "Proposed (+). e = change one  u = undo all" if changes else "Where everything plugs in"
    lines = plug_lines(desk.state.job, {tag for tag, _, _ in plan.placed}, plan.left)
    desk.read(title, "\n".join([*lines, "", CAUTION]))


class EquipmentView(KindView):
    """Devices with their buying state, price and the day they can last go back."""

    name = "equipment"
    title = "Equipment"
    about = (
        "What goes in the wall, with the manufacturer's sizes, clearances and power. States: to buy, ordered, "
        "owned. i = access, and which breaker to turn off first. A replaced thing is kept on file. Plugs = where "
        "everything plugs in, with a proposal for the rest."
    )
    first = "a = add the TV, the fireplace and the receiver, with the sizes and clearances of their manuals."
    kinds = (Equipment,)
    filters = ("all", *BUYING)
    shown = ("name", "state", "opening", "price", "return_by", "what")
    keys = (
        Key("space", "Next state", lambda desk, key: _move(desk, key, 1)),
        Key("backspace", "State before", lambda desk, key: _move(desk, key, -1)),
        WAY_KEY,
        Key("x", "Replace", change),
        Key("v", "Plugs", _propose),
    )

    def columns(self, state: State) -> tuple[Column, ...]:
        """As the fields say, with room for the sign of the state."""
        return (
            Column("tag", 5),
            Column("name", 20, grow=True),
            Column("state", 9),
            Column("in", 4),
            Column("price", 10, right=True),
            Column("return by", 16),
            Column("kind", 10),
        )

    def rows(self, state: State, chosen: str) -> Sequence[Any]:
        """By tag, so that a line stays where it is when Space sets its next state; what was retired last."""
        ordered = sorted(state.job.of(Equipment).values(), key=lambda one: one.retired is not None)
        return [one for one in ordered if chosen in ("all", one.state)]

    def line(self, state: State, row: Any) -> Line:
        """One device; the sign tells its state without colour."""
        left = return_days_left(row, state.job)
        back = ""
        if row.return_by is not None:
            back = date_text(state.job, row.return_by)
            if left is not None and left <= NEAR_DAYS:
                back = f"! {left} days left" if left >= 0 else "! too late"
        price = show_money(row.price * row.count, state.job.settings.currency) if row.price is not None else "no price"
        name = row.name if row.count == 1 else f"{row.name} ×{row.count}"
        sign = "retired" if row.retired else SIGNS[row.state]
        tone = "muted" if row.retired else "warn" if back.startswith("!") else "done" if row.state == "owned" else ""
        return Line((row.tag, name, sign, row.opening, price, back, SAID.get(row.what, row.what)), tone)

    def order(self, state: State, row: Any, column: int) -> Any:
        """The price as it is shown: for all of them."""
        if column == 4:
            return None if row.price is None else row.price * row.count
        return super().order(state, row, column)

    def summary(self, state: State, rows: Sequence[Any]) -> str:
        """What is still to be spent and what is in the house."""
        currency = state.job.settings.currency
        parts = []
        for name, total in buying_totals(state.job).items():
            if not total["count"]:
                continue
            unpriced = f" + {total['unpriced']} with no price" if total["unpriced"] else ""
            parts.append(f"{total['count']} {name} {show_money(total['price'], currency)}{unpriced}")
        return " · ".join(parts) or "nothing yet"
