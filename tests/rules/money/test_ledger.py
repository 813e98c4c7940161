"""The ledger: what is planned, promised, paid and still to pay, worked out by hand and against an independent sum."""

from __future__ import annotations

from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from store.measure.money import Money
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.people import Amount, Contact, Handoff
from store.records.whole import Job
from store.rules.core.findings import findings
from store.rules.money.ledger import by_category, changes, ledger, ledger_totals, quotes
from store.rules.money.words import changed_lines, groups, sums
from store.rules.trades.calls import calls
from templates.sheets.catalogue import Context
from templates.sheets.catalogue import make as make_sheet
from tests.jobs.order_jobs import MONDAY, job_of, step


def amount(tag: str, of: str, what: str, minor: int, day: int = 1, **more: str) -> Amount:
    return Amount(tag=tag, of=of, what=what, amount=Money(minor), date=date(2026, 10, day), **more)  # type: ignore[arg-type]


def contact(tag: str, trade: str = "electrician", state: str = "booked", **more: object) -> Contact:
    more.setdefault("name", f"name {tag}")
    return Contact(tag=tag, trade=trade, state=state, **more)  # type: ignore[arg-type]


def line(job: Job, key: str) -> tuple[int, int | None, int | None, int, int, int]:
    """Planned, quoted, committed, paid, to pay, held back."""
    (row,) = [one for one in ledger(job) if one.key == key]
    return (row.line.planned, row.line.quoted, row.line.committed, row.line.paid, row.to_pay, row.held)


def rules(job: Job) -> set[str]:
    return {each.rule for each in findings(job)}


def test_a_booked_trade_has_promised_what_it_quoted_and_a_tenth_is_held_until_signed() -> None:
    job = job_of(contact("T1"), amount("M1", "T1", "quote", 185_000), amount("M2", "T1", "deposit", 60_000))
    assert line(job, "T1") == (185_000, 185_000, 185_000, 60_000, 125_000, 18_500)
    signed = job.having(Handoff(tag="H1", trade="electrician", contact="T1", given=MONDAY, signed=MONDAY))  # type: ignore[arg-type]
    assert line(signed, "T1")[-1] == 0
    still_at_work = signed.having(step("S1", 1, who="T1"))
    assert line(still_at_work, "T1")[-1] == 18_500


def test_no_more_than_the_whole_is_held_back_whatever_was_typed() -> None:
    job = job_of(contact("T1"), amount("M1", "T1", "quote", 100_000), holdback=150.0)
    assert line(job, "T1")[-1] == 100_000
    assert "holdback_beyond_the_whole" in rules(job)
    assert "holdback_beyond_the_whole" not in rules(job_of(holdback=100.0))


def test_of_two_quotes_for_the_same_scope_one_is_counted() -> None:
    job = job_of(
        contact("T1", state="quoted"),
        contact("T2", state="quoted"),
        amount("M1", "T1", "quote", 120_000, scope="Board, tape", leaves_out="paint"),
        amount("M2", "T2", "quote", 100_000, scope="board,  tape"),
    )
    (rows,) = quotes(job).values()
    assert [(one.contact, one.above_lowest, one.counted) for one in rows] == [("T2", 0, True), ("T1", 20_000, False)]
    assert rows[1].leaves_out == "paint"
    assert ledger_totals(job).forecast == 100_000
    booked = job.having(contact("T1", state="booked"))
    assert ledger_totals(booked).forecast == 120_000
    assert [one.key for one in ledger(booked)] == ["T1"]


def test_a_newer_quote_replaces_the_older_and_the_difference_is_the_change_since_the_plan() -> None:
    job = job_of(
        contact("T1"),
        amount("M1", "T1", "quote", 100_000, 2, scope="rough-in"),
        amount("M2", "T1", "quote", 115_000, 9, scope="rough-in"),
        amount("M3", "T1", "quote", 5_000, 9, scope="one more box"),
    )
    assert line(job, "T1")[:3] == (105_000, 120_000, 120_000)
    assert [(row.key, row.change) for row in changes(job)] == [("T1", 15_000)]


def test_what_was_planned_wins_over_the_first_quote() -> None:
    job = job_of(contact("T1"), amount("M1", "T1", "planned", 90_000), amount("M2", "T1", "quote", 100_000))
    assert changes(job)[0].change == 10_000


def test_things_are_promised_when_ordered_and_paid_in_all_is_not_added_twice() -> None:
    job = job_of(
        Equipment(tag="E1", name="Speaker", price=Money(10_000), count=2, state="ordered", paid=Money(5_000)),
        Equipment(tag="E2", name="Receiver", price=Money(64_000)),
        amount("M1", "E1", "deposit", 5_000),
    )
    assert line(job, "E1") == (20_000, 20_000, 20_000, 5_000, 15_000, 0)
    assert line(job, "E2") == (64_000, 64_000, None, 0, 64_000, 0)


def test_a_thing_that_went_back_costs_what_was_not_paid_back() -> None:
    job = job_of(
        Equipment(tag="E1", name="Receiver", price=Money(60_000), state="owned", retired=MONDAY),
        amount("M1", "E1", "paid", 60_000),
        amount("M2", "E1", "refund", 57_500),
    )
    assert line(job, "E1")[3:5] == (2_500, 0)


AMOUNTS = st.lists(
    st.tuples(st.sampled_from(["T1", "T2", "E1", ""]), st.sampled_from(["planned", "deposit", "paid", "refund"]),
              st.integers(0, 10**7)),
    max_size=12,
)  # fmt: skip


@given(AMOUNTS)
def test_what_was_paid_adds_up_whatever_it_was_for(rows: list[tuple[str, str, int]]) -> None:
    records = [amount(f"M{at}", of, what, minor) for at, (of, what, minor) in enumerate(rows, 1)]
    job = job_of(contact("T1"), contact("T2", "drywall"), Equipment(tag="E1", name="x", price=Money(1)), *records)
    ledger = sum(minor * {"deposit": 1, "paid": 1, "refund": -1}.get(what, 0) for _, what, minor in rows)
    found = ledger_totals(job)
    assert found.paid == ledger
    assert found.forecast - found.paid == found.still_to_pay
    groups = by_category(job).values()
    for name in ("planned", "committed", "paid", "still_to_pay", "forecast", "held_back"):
        assert sum(getattr(one, name) for one in groups) == getattr(found, name)


def test_the_budget_the_reserve_and_what_is_paid_too_much_are_told() -> None:
    records = (contact("T1"), amount("M1", "T1", "planned", 100_000), amount("M2", "T1", "quote", 112_000))
    assert "reserve_used_up" in rules(job_of(*records, contingency=10.0))
    assert "reserve_used_up" not in rules(job_of(*records, contingency=12.0))
    assert "over_budget" in rules(job_of(*records, budget=Money(111_999)))
    assert "over_budget" not in rules(job_of(*records, budget=Money(112_000)))
    paid = (*records, amount("M3", "T1", "paid", 112_000))
    assert "paid_too_much" in rules(job_of(*paid))
    assert "paid_too_much" in rules(job_of(*records, amount("M3", "T1", "paid", 112_001)))
    assert "paid_too_much" not in rules(job_of(*records, amount("M3", "T1", "paid", 100_800)))
    (into,) = [
        each for each in findings(job_of(*records, amount("M3", "T1", "paid", 105_000))) if each.rule == "paid_too_much"
    ]
    assert into.headline == "Retainage too small: $70.00 of $112.00, T1 name T1"
    assert into.why == (
        "$1,050.00 of $1,120.00 is paid to name T1, and the work is not signed back: retainage is $70.00, $112.00 "
        "was agreed."
    )


# --- trades ---


def test_papers_that_end_before_the_work_does_are_told() -> None:
    job = job_of(contact("T1", insured_until=date(2026, 11, 5)), step("S1", 5, who="T1"))
    assert "insurance_ends_before_work" in rules(job)
    longer = job.having(contact("T1", insured_until=date(2026, 11, 6)))
    assert "insurance_ends_before_work" not in rules(longer)


def test_the_next_call_is_the_most_pressing() -> None:
    job = job_of(
        contact("T1", state="to ask", call_on=date(2026, 11, 20)),
        contact("T2", "drywall", "quoted"),
        contact("T3", "painter", "done", call_on=MONDAY),
        step("S1", 30, who="T2"),
        step("S2", 1, "S1", who="T1"),
    )
    # 30 working days from Nov 2 without Thanksgiving and the day after end on Dec 15: 21 days before Dec 16.
    assert [(each.contact, each.day) for each in calls(job)] == [
        ("T2", MONDAY), ("T1", date(2026, 11, 20)), ("T1", date(2026, 11, 25)),
    ]  # fmt: skip
    assert "nobody_booked" in rules(job)
    assert "nobody_booked" not in rules(job.having(contact("T2", "drywall", "booked")))


def test_somebody_whose_papers_ended_and_who_still_has_work_is_called() -> None:
    job = job_of(
        contact("T1", insured_until=date(2026, 11, 1), licence_until=date(2026, 11, 30)), step("S1", 5, who="T1")
    )
    (call,) = calls(job)
    assert (call.day, call.why) == (MONDAY, "their insurance ended on Nov 1, 2026, and they still have work here")
    assert calls(job_of(contact("T1", insured_until=date(2026, 11, 1)))) == ()
    assert calls(job.having(contact("T1", state="done", insured_until=date(2026, 11, 1)))) == ()


def test_quotes_of_one_trade_for_differently_worded_work_are_told() -> None:
    job = job_of(
        contact("T1", "drywall", "quoted", name="Jo"),
        contact("T2", "drywall", "quoted", name="Max"),
        amount("M1", "T1", "quote", 115_000, scope="board, tape"),
        amount("M2", "T2", "quote", 110_000, scope="hang and tape"),
    )
    assert ledger_totals(job).forecast == 225_000
    (one,) = [each for each in findings(job) if each.rule == "quotes_in_other_words"]
    assert one.tags == ("T1", "T2")
    assert "$1,150.00 of Jo for board, tape; $1,100.00 of Max for hang and tape" in one.says
    same = job.having(amount("M2", "T2", "quote", 110_000, scope="Board, tape"))
    assert "quotes_in_other_words" not in rules(same)
    both = job.having(contact("T1", "drywall")).having(contact("T2", "drywall"))
    assert "quotes_in_other_words" not in rules(both)  # both are booked: both are to be paid


def worked_example() -> list[Record]:
    """Two trades and two things, worked out by hand; the planned sum of the electrician was raised by a quote."""
    return [
        contact("T1", name="Sam"),
        amount("M1", "T1", "planned", 100_000),
        amount("M2", "T1", "quote", 120_000),
        amount("M3", "T1", "deposit", 30_000),
        amount("M4", "T1", "paid", 50_000),
        contact("T2", "drywall", "quoted"),
        contact("T3", "drywall", "quoted"),
        amount("M5", "T2", "quote", 90_000, scope="board and tape", leaves_out="sanding"),
        amount("M6", "T3", "quote", 85_000, scope="Board  and tape"),
        Equipment(tag="E1", name="Screen", what="screen", state="ordered", price=Money(89_900), paid=Money(10_000)),
        Equipment(tag="E2", name="Fireplace", what="fireplace", price=Money(52_000)),
    ]


def test_a_whole_job_worked_out_by_hand() -> None:
    """Planned 1,000 + 850 + 899 + 520; the cheaper of the two quotes is counted; 15 % of the plan is kept back.

    A tenth of the 1,200 promised to the electrician is held until the work is signed back.
    """
    job = job_of(*worked_example(), budget=Money(400_000), contingency=15.0)
    assert [(one.name, one.amount) for one in sums(job)] == [
        ("planned", 326_900), ("quoted", 346_900), ("promised (committed)", 209_900), ("paid", 90_000),
        ("still to pay", 256_900), ("of that, retainage until signed back", 12_000),
        ("projected cost, if nothing changes", 346_900), ("more than planned", 20_000),
        ("kept for surprises, 15%", 49_035), ("left of that", 29_035),
        ("budget", 400_000), ("left of the budget", 53_100),
    ]  # fmt: skip
    assert groups(job) == (
        ("electrician", "1,000.00", "1,200.00", "1,200.00", "800.00", "400.00", "120.00", "1,200.00"),
        ("drywall", "850.00", "850.00", "0.00", "0.00", "850.00", "0.00", "850.00"),
        ("screen", "899.00", "899.00", "899.00", "100.00", "799.00", "0.00", "899.00"),
        ("fireplace", "520.00", "520.00", "0.00", "0.00", "520.00", "0.00", "520.00"),
    )
    assert changed_lines(job) == ["T1 Sam costs $200.00 more than planned ($1,000.00, now $1,200.00)"]
    beside = quotes(job)["drywall", "board and tape"]
    assert [(one.contact, one.above_lowest, one.leaves_out, one.counted) for one in beside] == [
        ("T3", 0, "", True), ("T2", 5_000, "sanding", False),
    ]  # fmt: skip


def test_a_job_in_yen_shows_no_cents_anywhere() -> None:
    job = job_of(contact("T1"), amount("M1", "T1", "quote", 185_000), currency="JPY")
    assert groups(job)[0][:3] == ("electrician", "1,850", "1,850")
    assert sums(job)[0].amount == 185_000
    page = make_sheet("money", "md", job, Context())
    assert "¥1,850" in page
    assert "1,850.00" not in page
