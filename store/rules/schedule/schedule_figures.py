"""Figures of the calendar: dates of each step, time to spare, the chain; and the last day to order each thing."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.people import Step
from store.records.whole import Job
from store.rules.core.figures import Figure, figures_of
from store.rules.schedule.calendar import SLIP_DAYS, bookings_to_change, calendar, slips


@figures_of("job", "step")
def step_dates(job: Job) -> Iterable[Figure]:
    """Early and late dates, float in working days, what decides the start, and days a booking is missed by."""
    found = calendar(job)
    for one in found.schedule.steps:
        yield one.key, "start", one.start.isoformat()
        yield one.key, "finish", one.finish.isoformat()
        yield one.key, "ready", one.ready.isoformat()
        yield one.key, "late_start", one.late_start.isoformat()
        yield one.key, "late_finish", one.late_finish.isoformat()
        yield one.key, "float_days", one.total_float
        yield one.key, "free_float_days", one.free_float
        yield one.key, "critical", one.critical
        if one.driver:
            yield one.key, "waits_for", one.driver
        if one.misses_booking_days:
            yield one.key, "booking_missed_by_days", one.misses_booking_days
    if found.schedule.steps:
        yield "job", "schedule_finish", found.schedule.finish.isoformat()
        yield "job", "critical_chain", list(found.schedule.chain)


@figures_of("step")
def four_days_late(job: Job) -> Iterable[Figure]:
    """What four working days more of each step that is not done move: steps with their new days, bookings, the end.

    Only of a job with at most MOST_SLIPS steps.
    """
    for tag, slip in slips(job).items():
        name = f"{SLIP_DAYS}_days_late"
        yield tag, f"{name}_moves", [f"{each.key} {each.start} to {each.new_start}" for each in slip.moved]
        change = bookings_to_change(job, slip)
        yield tag, f"{name}_bookings", [f"{each.key} {job.of(Step)[each.key].booked}" for each in change]
        yield tag, f"{name}_finish", slip.finish.isoformat()
