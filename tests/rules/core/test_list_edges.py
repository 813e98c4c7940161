"""Each condition of what stands on the list, what leaves it and what opens again: both sides of it, in memory."""

from __future__ import annotations

from datetime import timedelta

import msgspec

from store.records.field import Ref
from store.records.gate import Check, Closing
from store.records.whole import Job, Outside, Removed
from store.records.wiring import Box, Cable
from store.rules.core.checks import as_vouched, close, items, rough_in
from store.rules.core.taken_off import changed_list, reopened, taken_off
from tests.book.build import TODAY, wall
from tests.jobs.gate_edges import ITEM, closed, doing, job_in
from tests.jobs.proofs import PICTURE, SEEN, sound

ENDS = [Box(tag=f"B{n}", what="low-voltage", new=False, wall=Ref("W1")) for n in (1, 2)]
CABLE = Cable(tag="K1", type="cat6", start=Ref("B1"), end=Ref("B2"))


def test_a_closing_is_made_of_what_is_entered() -> None:
    (one,) = rough_in(job_in(ITEM))
    for reason, evidence, office, outcome in (
        ("", SEEN, "", "closed"), ("no stud", "", "", "not needed"), ("no stud", SEEN, "", "closed"),
        ("no stud", "", "town hall", "closed"),
    ):  # fmt: skip
        assert close(one, "Ann", TODAY, evidence, reason, office=office).outcome == outcome
    told = close(one, "Ann", TODAY, "R. Wells, R-112", proof="inspection")
    assert (told.office, told.reference, told.inspected) == ("R. Wells", "R-112", TODAY)
    given = close(one, "Ann", TODAY, "all of it", proof="inspection", office="town hall", reference="R-1")
    assert (given.office, given.reference, given.inspected) == ("town hall", "R-1", None)
    assert close(one, "Ann", TODAY, "", proof="inspection").inspected is None
    assert close(one, "Ann", TODAY, "blocks, straps").office == ""


def test_an_older_closing_speaks_of_what_was_asked_in_its_day() -> None:
    (one,) = rough_in(job_in(ITEM))
    old = Closing(tag="Q1", date=TODAY, by="Ann", evidence="ok", vouches={"what": ITEM.what, "gone": "x"})
    assert as_vouched(one, old) == {"what": ITEM.what}
    assert as_vouched(one, msgspec.structs.replace(old, proof="seen")) == one.vouches
    assert as_vouched(one, msgspec.structs.replace(old, vouches={})) == one.vouches


def test_only_its_own_edit_or_picture_opens_an_item() -> None:
    def why(*outside: Outside, photo: bool = False) -> str:
        bare = job_in(Check(tag="Q1", what="Blocks nailed", proof="photo") if photo else ITEM)
        whole = bare.having(sound(rough_in(bare)[0])) if photo else bare.having(closed(bare, "Q1"))
        return items(msgspec.structs.replace(whole, outside=outside))[0].why_open

    assert why() == "" == why(photo=True)
    assert why(Outside("closing", "Q1", "changed")) == "its sign-off was not recorded by Studbook"
    for other in (Outside("answer", "Q1", "changed"), Outside("closing", "Q2", "changed")):
        assert why(other) == ""
    assert PICTURE in why(Outside("picture", PICTURE, "was changed"), photo=True)
    assert why(Outside("wish", PICTURE, "changed"), photo=True) == ""
    open_ones = msgspec.structs.replace(job_in(ITEM), outside=(Outside("closing", "Q1", "vanished"),))
    assert items(open_ones)[0].why_open == "open"


def left(before: Job, **values: object) -> tuple[set[str], set[str]]:
    """The keys that leave the list when a cable is changed, and those that come back."""
    after, steps = doing(before, msgspec.structs.replace(before.of(Cable)["K1"], **values))
    listed = changed_list(before, after, steps)
    return {each.key for each in listed.off}, set(listed.on)


def test_what_leaves_the_list_and_what_comes_back() -> None:
    whole = job_in(wall("W1"), *ENDS, CABLE)
    mine = {each.key for each in rough_in(whole) if each.key.startswith("K1/")}
    assert len(mine) > 3
    for out in ({"in_wall": False}, {"retired": TODAY}, {"retired": TODAY + timedelta(days=30)}):
        assert left(whole, **out) == (mine, set()), out
    assert left(whole, name="other") == (set(), set())
    gone = tuple(Removed(each, "what", "Ann", "2026-11-25", "why") for each in sorted(mine))
    off = msgspec.structs.replace(whole.having(msgspec.structs.replace(CABLE, in_wall=False)), removed=gone)
    assert left(off, in_wall=True) == (set(), mine)
    assert left(off, in_wall=True, retired=TODAY + timedelta(days=30)) == (set(), set())
    later = msgspec.structs.replace(whole, removed=gone)
    assert left(later, in_wall=False) == (mine, set()), "it leaves before the day that was told"
    told = {"retired": TODAY + timedelta(days=30)}
    assert left(later, **told) == (set(), set()), "it was told and asked for before"
    assert {each.tag for each in taken_off(off)} == mine
    assert taken_off(later) == ()
    assert taken_off(whole) == ()


def test_what_opens_again_was_closed_and_keeps_its_closing() -> None:
    bare = job_in(ITEM, Check(tag="Q2", what="Straps"))
    before = bare.having(closed(bare, "Q1"))
    other = msgspec.structs.replace(ITEM, what="Blocks screwed")
    assert [each.key for each in reopened(before, before.having(other))] == ["Q1"]
    assert reopened(before, before) == []
    assert reopened(bare, bare.having(other)) == []
    assert reopened(before, doing(before, drops=[before.of(Closing)["Q1"]])[0]) == []
    assert reopened(before, before.having(Check(tag="Q2", what="More straps"))) == []
    stale = before.having(other)
    assert reopened(stale, stale.having(msgspec.structs.replace(ITEM, what="Blocks glued"))) == []
