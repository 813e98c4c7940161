"""Each condition of the guard by itself: the nearest actions on both sides of it, in memory."""

from __future__ import annotations

from datetime import timedelta

import msgspec
import pytest

from store.book.changes import Step
from store.measure.errors import BadValue
from store.measure.length import Length
from store.measure.money import Money
from store.records.base import to_doc
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.gate import Answer, Check, Closing, Passage
from store.records.job import Settings
from store.records.people import Step as WorkStep
from store.records.wall import Reading, Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable
from store.rules.core.checks import close, items, rough_in
from store.rules.core.findings import findings
from store.rules.gate.claims import guard_claims, guard_signature
from store.rules.gate.days import earliest_day
from store.rules.gate.gate import STAGES, passage
from store.rules.gate.guard import Held, NeedsReason, guard, guard_permit
from tests.book.build import TODAY, settings, wall
from tests.jobs.gate_edges import (
    ITEM,
    TEN,
    TO_DRYWALL,
    TO_ROUGH_IN,
    WHY,
    closed,
    covered_by,
    done,
    job_in,
    passed,
)
from tests.rows import rows

# --- a passage ---


def test_a_passage_is_to_the_next_stage_and_relies_on_the_items_of_drywall_alone() -> None:
    job = job_in(ITEM)
    assert passage(job, "Ann") == Passage(tag="", stage="Design", date=TODAY, by="Ann")
    at_rough_in = job_in(ITEM, *passed(*TO_ROUGH_IN))
    assert passage(at_rough_in, "Ann", WHY, "Drywall").checked == ("Q1",)
    for other in ("Design", "Finish"):
        with pytest.raises(Held, match=f"{other} is not the next stage, Drywall is"):
            passage(at_rough_in, "Ann", "", other)
    with pytest.raises(BadValue, match="In use is the last stage"):
        passage(job_in(*passed(*STAGES[1:])), "Ann")


def test_only_the_stage_that_follows_is_passed_and_one_at_a_time() -> None:
    job = job_in(*passed("Design"))
    done(job, *passed("Mock-up"))
    for wrong in ("Rough-in", "Drywall"):
        with pytest.raises(Held, match=r"not the next stage, Mock-up is\. The job is at Design"):
            done(job, *passed(wrong))
    with pytest.raises(Held, match="one stage at a time"):
        done(job, *passed("Mock-up", "Rough-in"))
    last = job_in(*passed(*STAGES[1:]))
    with pytest.raises(Held, match="In use is the last stage"):
        done(last, msgspec.structs.replace(passed("Design")[0], tag="P9"))
    with pytest.raises(Held, match="the move to Design can't be changed"):
        done(job, msgspec.structs.replace(passed("Design")[0], by="Eve"))


@rows("by", ["x", "ok", "12"])
def test_a_passage_is_signed_on_a_day_that_has_come(by: str) -> None:
    job = job_in(*passed("Design"))
    with pytest.raises(BadValue, match="no name for the move"):
        done(job, *passed("Mock-up", by=by))
    with pytest.raises(BadValue, match="is still to come"):
        done(job, *passed("Mock-up", date=TODAY + timedelta(days=1)))
    with pytest.raises(Held, match="wrong date: before the move to Design"):
        done(job, *passed("Mock-up", date=TODAY - timedelta(days=1)))
    guard_signature(passed("Mock-up")[0], job)


def test_what_holds_softly_is_passed_for_a_reason_and_what_holds_strictly_for_none() -> None:
    for reason in ("", "x", "ok"):
        with pytest.raises(NeedsReason, match="Design is locked, 1 open:\n  No walls yet\nYou can move on"):
            done(job_in(), *passed("Design", reason=reason))
    done(job_in(), *passed("Design"))
    at_rough_in = job_in(ITEM, *passed(*TO_ROUGH_IN))
    with pytest.raises(Held, match="Q1 Blocks nailed") as caught:
        done(at_rough_in, *passed("Drywall", checked=("Q1",)))
    assert not isinstance(caught.value, NeedsReason)


def test_drywall_relies_on_just_the_items_that_there_are() -> None:
    job = job_in(ITEM, closed(job_in(ITEM), "Q1"), *passed(*TO_ROUGH_IN))
    done(job, *passed("Drywall", reason="", checked=("Q1",)))
    for wrong in ((), ("Q1", "Q2"), ("Q2",)):
        with pytest.raises(Held, match="list of rough-in items changed meanwhile"):
            done(job, *passed("Drywall", checked=wrong))
    done(job_in(*passed("Design")), *passed("Mock-up", checked=("Q9",)))


def test_a_passage_is_taken_back_from_the_end_and_for_a_reason() -> None:
    job = job_in(*passed(*TO_ROUGH_IN))
    one, two, three = passed(*TO_ROUGH_IN)
    for early in (one, two):
        with pytest.raises(Held, match="The job is at Rough-in"):
            done(job, drops=[early], why=WHY)
    for why in ("", "x"):
        with pytest.raises(NeedsReason, match="no reason to go back from Rough-in"):
            done(job, drops=[three], why=why)
    done(job, drops=[three], why=WHY)
    done(job, drops=[three], back=True)
    with pytest.raises(Held, match="The job is at Rough-in"):
        done(job, drops=[two], back=True)
    claimed = job_in(*passed("Design", "Rough-in"))
    with pytest.raises(Held, match="The job is at Rough-in"):
        done(claimed, drops=[one], why=WHY)


# --- records ---


def test_a_record_has_what_it_must_and_names_what_is_there() -> None:
    job = job_in(wall("W1"), Box(tag="B1", what="junction", wall=Ref("W1")), Equipment(tag="E1", name="set"))
    with pytest.raises(BadValue, match="“name” is blank, W2"):
        done(job, Wall(tag="W2", name="  "))
    with pytest.raises(BadValue, match="“stud thickness” must be more than zero"):
        done(job, Wall(tag="W2", name="x", stud_width=Length(0)))
    with pytest.raises(BadValue, match="no B9 in this job, for “from”, K1"):
        done(job, Cable(tag="K1", type="cat6", start=Ref("B9")))
    with pytest.raises(BadValue, match=r"B1 is the wrong kind for “raceway”, K1\. Enter the tag of a raceway"):
        done(job, Cable(tag="K1", type="cat6", raceway=Ref("B1")))
    with pytest.raises(BadValue, match="E1 can't be its own “plugs into”"):
        done(job, Equipment(tag="E1", name="set", plug=Ref("E1")))
    done(job, Cable(tag="K1", type="cat6", start=Ref("B1")))
    done(job, Reading(tag="D1", wall=Ref("W1"), what="width", value=TEN))
    done(job, Check(tag="Q1", what="Blocks", about_tag=Ref("B1")))  # anything may be meant there


def test_what_is_named_by_others_is_not_deleted_and_the_settings_never() -> None:
    box = Box(tag="B1", what="junction")
    job = job_in(box, Cable(tag="K1", type="cat6", start=Ref("B1")))
    with pytest.raises(BadValue, match="B1 is still in use: K1"):
        done(job, drops=[box])
    done(job_in(box), drops=[box])
    with pytest.raises(BadValue, match="settings can't be deleted"):
        done(job, drops=[job.settings])


def test_an_item_written_by_hand_is_deleted_for_a_reason_at_any_stage() -> None:
    for stages in ((), TO_ROUGH_IN, TO_DRYWALL):
        job = job_in(ITEM, *passed(*stages))
        for why in ("", "x"):
            with pytest.raises(NeedsReason, match=r"no reason to delete a rough-in item, Q1 Blocks nailed"):
                done(job, drops=[ITEM], why=why)
        assert [each.key for each in done(job, drops=[ITEM], why=WHY).off] == ["Q1"]


def test_an_item_of_the_plan_is_asked_about_from_rough_in_on_or_once_it_is_signed_off() -> None:
    box = Box(tag="B1", what="low-voltage", wall=Ref("W1"))
    gone = msgspec.structs.replace(box, new=False)
    early = job_in(wall("W1"), box, *passed("Design", "Mock-up"))
    assert done(early, gone).off == ()
    signed = job_in(wall("W1"), box, closed(early, "B1/set"), *passed("Design", "Mock-up"))
    with pytest.raises(NeedsReason, match="takes 1 rough-in item off the list:\n  B1/set"):
        done(signed, gone)
    assert [each.key for each in done(signed, gone, why=WHY).off] == ["B1/set"]
    for stages in (TO_ROUGH_IN, TO_DRYWALL, (*TO_DRYWALL, "Finish")):
        with pytest.raises(NeedsReason, match="takes 3 rough-in items off the list"):
            done(job_in(wall("W1"), box, *passed(*stages)), gone)
    # A passage to Drywall counts for this whatever became of it.
    with pytest.raises(NeedsReason, match="off the list"):
        done(job_in(wall("W1"), box, *passed("Drywall")), gone)


def test_what_opens_behind_drywall_is_asked_about_and_before_it_is_not() -> None:
    job = job_in(ITEM, closed(job_in(ITEM), "Q1"), *passed(*TO_ROUGH_IN))
    other = msgspec.structs.replace(ITEM, what="Blocks screwed")
    assert done(job, other).off == ()
    covered = job_in(ITEM, closed(job_in(ITEM), "Q1"), *covered_by("Q1"))
    with pytest.raises(NeedsReason, match="reopens 1 item behind drywall:\n  Q1: changed since Ann"):
        done(covered, other)
    done(covered, other, why=WHY)
    # While the move to Drywall is taken back nothing is behind it.
    (last,) = passed("Drywall", checked=("Q1",))
    done(covered, other, drops=[last], back=True)


# --- sign-offs ---


def test_a_sign_off_is_of_an_item_with_a_kind_of_proof() -> None:
    job = job_in(ITEM)
    whole = closed(job, "Q1")
    done(job, whole)
    with pytest.raises(BadValue, match="there is no rough-in item Q9"):
        done(job, msgspec.structs.replace(whole, tag="Q9"))
    with pytest.raises(BadValue, match="no kind of proof"):
        done(job, msgspec.structs.replace(whole, proof=""))
    with pytest.raises(BadValue, match="no proof"):
        done(job, msgspec.structs.replace(whole, evidence="x"))
    # What is brought back passed here before.
    done(job, msgspec.structs.replace(whole, proof=""), back=True)


def test_a_sign_off_that_a_passage_relies_on_stays_unless_its_item_is_open_again() -> None:
    covered = job_in(ITEM, closed(job_in(ITEM), "Q1"), *covered_by("Q1"))
    mine = covered.of(Closing)["Q1"]
    again = msgspec.structs.replace(mine, evidence="seen once more by two")
    for back in (False, True):
        with pytest.raises(Held, match="stays signed off"):
            done(covered, again, back=back)
        with pytest.raises(Held, match="stays signed off"):
            done(covered, drops=[mine], back=back, why=WHY)
    free = job_in(ITEM, mine, *covered_by("Q2"))
    done(free, again)
    opened = covered.having(msgspec.structs.replace(ITEM, what="Blocks screwed"))
    done(opened, closed(opened, "Q1"))
    done(opened, drops=[mine], why=WHY)
    # Another item that is open frees nothing.
    other = covered.having(Check(tag="Q2", what="Straps"))
    with pytest.raises(Held, match="stays signed off"):
        done(other, again)
    (last,) = passed("Drywall", checked=("Q1",))
    done(covered, drops=[last, mine], back=True)


# --- answers, permits, money ---


def test_an_answer_is_to_what_is_found_by_somebody_who_may_on_a_day_of_the_job() -> None:
    strips = (Equipment(tag="E1", name="one", what="strip", state="owned", plug=Ref("E2")),
              Equipment(tag="E2", name="two", what="strip", state="owned"))  # fmt: skip
    job = job_in(*strips)
    stop = next(each for each in findings(job) if each.severity == "stop")
    whole = Answer(tag=stop.key, date=TODAY, by="R. Wells", office="building department", reference="R-112",
                   says="seen and allowed so", vouches=dict(stop.numbers))  # fmt: skip
    done(job, whole)
    for wrong, says in (
        ({"tag": "nothing:E1"}, "no such problem any more: E1"),
        ({"date": TODAY + timedelta(days=1)}, "still to come"),
        ({"date": TODAY - timedelta(days=400)}, "is too early"),
        ({"office": "my own office"}, "license no. or the office"),
        ({"by": "x"}, "Enter who accepted it"),
    ):
        bad = msgspec.structs.replace(whole, **wrong)
        with pytest.raises(BadValue, match=says):
            done(job, bad)
        done(job, bad, back=True)


def test_no_permit_takes_a_name_and_an_office_whenever_it_is_said() -> None:
    asked = settings(permit="needed", permit_by="", permit_office="")
    for given, bad in (
        ({"permit_by": "A. Clerk", "permit_office": "town hall"}, False),
        ({"permit_by": "A. Clerk", "permit_office": ""}, True),
        ({"permit_by": "", "permit_office": "town hall"}, True),
        ({"permit_by": "x", "permit_office": "town hall"}, True),
        ({"permit_by": "A. Clerk", "permit_office": "my own office"}, True),
    ):
        free = settings(permit="not needed", **given)
        for step in (Step("job", "job", to_doc(asked), to_doc(free)), Step("job", "job", None, to_doc(free))):
            if bad:
                with pytest.raises(BadValue, match="no name or office for a permit"):
                    guard_permit(step, free)
            else:
                guard_permit(step, free)
        named = msgspec.structs.replace(free, name="Another name")
        guard_permit(Step("job", "job", to_doc(free), to_doc(named)), named)  # it was said before: nothing new
        if bad:
            less = msgspec.structs.replace(free, permit_by="B. Clerk", permit_office="x")
            with pytest.raises(BadValue):
                guard_permit(Step("job", "job", to_doc(free), to_doc(less)), less)
    guard_permit(Step("job", "job", to_doc(asked), to_doc(asked)), asked)


def test_the_owner_of_a_job_is_no_inspector_and_may_sign_off_what_is_seen() -> None:
    job = job_in(ITEM).having(settings(owner="Ann Hill"))
    seen = closed(job, "Q1", office="Ann Hill")
    done(job, seen)
    own = close(rough_in(job)[0], "Ann", TODAY, office="ann hill", reference="R-1", inspected=TODAY)
    with pytest.raises(BadValue, match="The owner can't inspect"):
        done(job, own)
    done(job, msgspec.structs.replace(own, office="town hall"))


def test_the_currency_changes_only_where_no_amount_would_mean_another() -> None:
    paid = Equipment(tag="E1", name="set", price=Money(100))
    dinars = settings(currency="KWD")
    with pytest.raises(BadValue, match="amounts here have 2 decimals"):
        done(job_in(paid), dinars)
    done(job_in(Equipment(tag="E1", name="set")), dinars)
    done(job_in(paid), settings(currency="EUR"))


# --- a job made whole at once ---


def test_a_job_made_whole_stands_only_where_it_could_have_got_to() -> None:
    whole = job_in(ITEM, closed(job_in(ITEM), "Q1"), *covered_by("Q1"))
    guard_claims(whole)
    guard_claims(job_in(*passed("Design"), *passed("Mock-up", reason="")))  # nothing held it
    wrong: dict[str, Job] = {
        "recorded twice": whole.having(msgspec.structs.replace(passed("Design")[0], tag="P9")),
        "recorded, not earned": job_in(ITEM, *covered_by("Q1")),
        "never moved to Mock-up": job_in(*passed("Design", "Rough-in")),
        "recorded without a reason": job_in(*passed("Design", reason="")),
        "another list of items": job_in(ITEM, closed(job_in(ITEM), "Q1"), *covered_by()),
    }
    for says, job in wrong.items():
        with pytest.raises(Held, match=says):
            guard_claims(job)
    dated = [*passed("Design"), *passed("Mock-up", date=TODAY - timedelta(days=1))]
    with pytest.raises(BadValue, match="Mock-up is dated before"):
        guard_claims(job_in(*dated))
    for bad in ({"by": "x"}, {"date": TODAY + timedelta(days=1)}):
        with pytest.raises(BadValue):
            guard_claims(job_in(*passed("Design", **bad)))


def test_a_whole_job_is_put_into_an_empty_one_and_taken_back_out_of_it() -> None:
    empty = job_in()
    done(empty, ITEM, *passed(*TO_ROUGH_IN))
    with pytest.raises(Held, match="Nothing was saved"):
        done(empty, ITEM, *covered_by("Q1"))
    with pytest.raises(Held, match="one stage at a time"):
        done(job_in(wall("W1")), ITEM, *passed("Design", "Mock-up"))
    with pytest.raises(Held, match="Nothing was saved"):
        done(empty, ITEM, *passed("Design", reason=""))
    # A passage alone is no whole job.
    with pytest.raises(NeedsReason, match="No walls yet"):
        done(empty, *passed("Design", reason=""))
    full = job_in(ITEM, *passed(*TO_ROUGH_IN))
    done(full, drops=[ITEM, *passed(*TO_ROUGH_IN)], back=True, why=WHY)
    with pytest.raises(Held, match="The job is at Rough-in"):
        done(full, drops=[ITEM, *passed("Design", "Mock-up")], back=True, why=WHY)
    with pytest.raises(Held, match="The job is at Rough-in"):
        done(full, drops=[ITEM, *passed(*TO_ROUGH_IN)], why=WHY)


def test_a_job_that_is_made_has_nothing_to_lose() -> None:
    made = job_in(ITEM)
    steps = [Step("job", "job", None, to_doc(made.settings)), Step("check", "Q1", None, to_doc(ITEM))]
    assert guard(Job({}, today=TODAY), made, steps).off == ()


# --- days ---


def test_the_first_day_on_record_is_of_any_record_with_a_day() -> None:
    assert earliest_day(job_in()) == TODAY - timedelta(days=180)
    day = TODAY - timedelta(days=50)
    for one in (
        passed("Design", date=day)[0],
        WorkStep(tag="S1", stage="Design", what="Measure", done=day),
    ):
        assert earliest_day(job_in(one)) == day - timedelta(days=180), one
    undone = WorkStep(tag="S1", stage="Design", what="Measure")
    assert earliest_day(job_in(undone)) == TODAY - timedelta(days=180)
    # A day to come is no beginning.
    assert earliest_day(job_in(passed("Design", date=TODAY + timedelta(days=30))[0])) == TODAY - timedelta(days=180)
    assert items(job_in()) == []
    assert isinstance(job_in().settings, Settings)
