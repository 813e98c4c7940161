"""Which findings are put to a trade as questions: those that it can answer, and no others."""

from __future__ import annotations

from collections.abc import Collection

from store.records.people import Trade
from store.records.whole import Job
from store.records.wiring import Box, Cable
from store.rules.cable.kinds import holds_power, is_power
from store.rules.core.findings import Finding

OWNERS = (
    "return_", "order_", "over_budget", "reserve_", "paid_", "licence_", "insurance_", "nobody_booked", "booking_",
    "service_", "warranty_", "photo_", "seat_", "screen_", "wish_", "upgrade_", "mock_up_", "step", "days_off_",
    "panel_long_unopened", "quotes_",
)  # fmt: skip
"""What the rules begin with that only the owner settles: money, papers, days, seats and wishes."""
POWER = ("B power", "K power", "C")
ABOUT: dict[Trade, tuple[str, ...]] = {
    "electrician": POWER,
    "inspector": POWER,
    "low-voltage": ("B signal", "K signal", "R"),
    "carpenter": ("N", "W", "A", "O"),
}
"""The kinds of thing whose findings a trade can answer, by the letter of the tag."""
ALSO: dict[Trade, tuple[str, ...]] = {
    "electrician": ("heater_", "receptacles_", "watts_", "power_", "strip_", "no_place_to_plug", "too_few_places"),
    "inspector": ("heater_", "receptacles_"),
    "low-voltage": (
        "no_sound_return", "source_without_way", "too_few_inputs", "too_few_network", "speaker_", "remote_",
        "wireless_", "no_port", "ports_", "no_way_for_later", "subwoofer_", "sound_return", "between_passes",
        "switch_without", "no_poe", "poe_",
    ),
    "drywall": ("box_set_too_deep", "box_in_unknown_surface", "junction_buried", "surface_may_burn", "likely_slip",
                "spread_beyond", "out_of_square", "stale_readings", "undated_readings"),
    "hvac": ("heat_outlet", "on_obstacle"),
    "supplier": ("ordered_too_late", "delivery_overdue", "no_length_sold"),
}  # fmt: skip
"""What the rules begin with that are put to a trade whatever they are about."""
NOT: dict[Trade, tuple[str, ...]] = {
    "carpenter": (
        "cable_",
        "corner",
        "receptacles_",
        "heater_to_ask",
        "signal_",
        "circuit",
        "cord_",
        "tamper_",
        "box_",
    ),
    "inspector": ("cord_", "strip_"),
}
"""What the rules begin with that are for others, though they name something of the trade's."""


def asked(job: Job, trade: Trade, one: Finding, own: Collection[str]) -> bool:
    """True when a finding is a question that the trade can answer; `own` are the tags on the trade's schedules.

    What is dangerous is no question: it makes the packet a draft.
    """
    if one.answered or one.severity == "stop":
        return False
    mine = [tag for tag in one.tags if tag in own]
    if one.rule.startswith(ALSO.get(trade, ())):
        return bool(mine) or all(tag.startswith("W") for tag in one.tags)
    if one.rule.startswith((*OWNERS, *NOT.get(trade, ()))):
        return False
    return any(_sort(job, tag) in ABOUT.get(trade, ()) for tag in mine)


def _sort(job: Job, tag: str) -> str:
    """The letter of a tag; of boxes and cables with what they carry."""
    record = job.get(tag)
    if isinstance(record, Box):
        return "B power" if holds_power(record) else "B signal"
    if isinstance(record, Cable):
        return "K power" if is_power(job, record) else "K signal"
    return tag[:1]
