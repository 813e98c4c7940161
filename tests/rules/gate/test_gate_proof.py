"""Proof of a kind: what closes an item and what does not, what opens it again, and what leaves the list."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import msgspec
import pytest

from store.book.book import Book
from store.book.changes import Change, add, drop, edit
from store.measure.errors import BadValue
from store.records.field import Ref
from store.records.gate import Check, Closing
from store.records.job import Settings
from store.records.wiring import Cable
from store.rules.cable.test_limits import test_of as limits_of
from store.rules.core.checks import close, items
from store.rules.core.proof import kinds_for, proof_missing, says_not_done
from store.rules.core.tested import ANY, why_not
from store.rules.gate.gate import standing
from store.rules.gate.guard import Held, NeedsReason
from tests.book.build import TODAY, check, reopen
from tests.jobs.gate_job import (
    PLAN,
    before_drywall,
    check_of,
    go_on,
    item_of,
    job_before,
    refused,
    shut,
    shut_all,
    stands,
)
from tests.jobs.proofs import PICTURE, SEEN, png, take_picture
from tests.rows import rows
from tui.cli.main import main


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where the job is."""
    return tmp_path / "wall.json"


# --- what is no proof ---

JUNK = (
    "x",
    ".",
    "ok",
    "OK!",
    "done",
    "all good",
    "yes",
    "n/a",
    "-",
    "xx",
    "aaa",
    "12",
    "seen",
    "\u200bok",
    "o\u200bk",
    "checked it",
    "seen by x",
    "I saw it",
    "looks fine to me",
    "not needed",
)


@pytest.mark.parametrize("junk", JUNK)
def test_junk_closes_nothing_and_says_what_would_do(path: Path, junk: str) -> None:
    book = before_drywall(path)
    one = check_of(book.job, "Q1")
    said = refused(book, [add(close(one, "Ann", TODAY, junk, proof="seen"), keep_tag=True)], BadValue)
    assert "what was seen, in two words or more" in said
    refused(book, [add(close(one, "Ann", TODAY, reason=junk), keep_tag=True)], BadValue, says="without a reason")


NOT_DONE = (
    "not pulled yet", "to be done tomorrow", "will be set on friday", "cannot see it", "still missing", "I forgot it",
    "both blocks missing", "waiting for Robin", "seen by nobody", "nailed later today", "blocks not nailed",
    "one nailed, the other still to do",
)  # fmt: skip
DONE = (
    SEEN, "not damaged, nailed through", "both in, no nail missing", "set as Robin will be there tomorrow, in two rows",
    "nothing is left to do", "the box is not set back", "must be level: it is", "no old nail there",
)  # fmt: skip


def test_what_says_that_it_is_still_to_be_done_signs_nothing_off(path: Path) -> None:
    book = before_drywall(path)
    one = check_of(book.job, "Q1")
    for words in NOT_DONE:
        closing = close(one, "Ann", TODAY, words, proof="seen")
        refused(book, [add(closing, keep_tag=True)], BadValue, says="says it is still to be done")
        assert not proof_missing(one, closing), "what was signed off before goes on counting"
    for words in DONE:
        assert not says_not_done(close(one, "Ann", TODAY, words, proof="seen")), words
    gone = close(one, "Ann", TODAY, reason="both blocks missing on the plan, not needed")
    assert not says_not_done(gone)


@pytest.mark.parametrize("name", ["", "x", ".", "ok", "\u200b", "7", "nobody", "me", "n/a", "seen by x", "test"])
def test_a_name_that_names_nobody_signs_nothing(path: Path, name: str) -> None:
    book = before_drywall(path)
    refused(book, [add(close(check_of(book.job, "Q1"), name, TODAY, SEEN), keep_tag=True)], BadValue)


@pytest.mark.parametrize("name", ["Will", "Al", "J. B.", "\u674e", "Bo Fine"])
def test_a_short_name_is_a_name(path: Path, name: str) -> None:
    book = before_drywall(path)
    book.act("Close", [add(close(check_of(book.job, "Q1"), name, TODAY, SEEN), keep_tag=True)])
    assert not item_of(book.job, "Q1").open


def test_a_day_to_come_signs_nothing(path: Path) -> None:
    book = before_drywall(path)
    later = close(check_of(book.job, "Q1"), "Ann", TODAY + timedelta(days=1), SEEN)
    refused(book, [add(later, keep_tag=True)], BadValue, says="still to come")


def test_a_closing_without_a_kind_of_proof_is_not_written_any_more(path: Path) -> None:
    book = before_drywall(path)
    vague = msgspec.structs.replace(close(check_of(book.job, "Q1"), "Ann", TODAY, SEEN), proof="")
    refused(book, [add(vague, keep_tag=True)], BadValue, says="no kind of proof")


def test_what_was_closed_before_proof_was_asked_for_counts_and_says_so(path: Path) -> None:
    one = check("Blocks", "Q1")
    book = before_drywall(path)
    old = Closing(tag="Q1", date=TODAY, by="Ann", evidence="ok", vouches=check_of(book.job, "Q1").vouches)
    job = book.job.having(one).having(old)
    (item,) = items(job)
    assert not item.open
    changed = msgspec.structs.replace(one, where="left")
    assert [each.open for each in items(job.having(changed))] == [True]


NO_TESTS = (
    ("cat6", "wire map: not passed", "wire map: pass"),
    ("cat6", "wire map didnt pass", "wire map: passed, by Will"),
    ("cat6", "no pass on wire map", "wire map: no faults, passed"),
    ("cat6", "wire map: will pass", "wire map: pass on May 4"),
    ("cat6", "wire map pass?", "link: 1 Gb/s"),
    ("cat6", "wire map untested, looks fine", "wire map: all pairs"),
    ("cat6", "0 m", "12.4 m"),
    ("speaker-14-2", "\u22120.3 ohm", "0.3 ohm"),
    ("speaker-14-2", "-0.3 ohm", "loop - 0.3 ohm"),
    ("speaker-14-2", "not tested, 0.3 ohm", "tested, 0.3 ohm"),
    ("speaker-14-2", "should be 0.3 ohm", "0,3 ohm"),
    ("control-18-2", "500 m", "continuity: pass"),
    ("usb", "999 ohm", "device: seen at the far end"),
    ("line", "5 A", "sound: no hum"),
)


@rows(("kind", "none", "good"), NO_TESTS)
def test_what_failed_is_hoped_for_or_says_nothing_of_the_cable_is_no_test(kind: str, none: str, good: str) -> None:
    test = limits_of(Cable(tag="K1", type=kind), None)
    assert why_not(none, test)
    assert not why_not(good, test)


@pytest.mark.parametrize("none", ["good.png", "seen blocks"])
def test_a_thing_without_a_known_test_takes_the_word_of_a_tester(none: str) -> None:
    assert why_not(none, ANY)
    assert not why_not("meter: good", ANY)


# --- photos ---


def test_a_photo_is_a_picture_that_is_there(path: Path) -> None:
    book = before_drywall(path)
    one = check_of(book.job, "Q1")
    refused(book, [add(close(one, "Ann", TODAY, "gone.jpg"), keep_tag=True)], BadValue, says="there is no such file")
    (path.parent / "text.jpg").write_text("no picture at all")
    refused(book, [add(close(one, "Ann", TODAY, "text.jpg"), keep_tag=True)], BadValue, says="text.jpg")
    for torn in (b"\xff\xd8\xff", b"\xff\xd8\xff\xe0" + bytes(2000)):
        (path.parent / "torn.jpg").write_bytes(torn)
        refused(book, [add(close(one, "Ann", TODAY, "torn.jpg"), keep_tag=True)], BadValue, says="it is not a picture")
    (path.parent / "half.png").write_bytes(png()[:40])
    half = add(close(one, "Ann", TODAY, "half.png"), keep_tag=True)
    refused(book, [half], BadValue, says="it is damaged or cut short")
    forged = msgspec.structs.replace(close(one, "Ann", TODAY, "gone.jpg"), pictures={"gone.jpg": "0" * 32})
    refused(book, [add(forged, keep_tag=True)], BadValue, says="there is no such file")
    refused(book, [add(close(one, "Ann", TODAY, "photo 12"), keep_tag=True)], BadValue, says="no picture file")


def test_a_picture_elsewhere_is_not_taken(path: Path, tmp_path_factory: pytest.TempPathFactory) -> None:
    elsewhere = tmp_path_factory.mktemp("camera")
    take_picture(elsewhere, "a.png")
    book = before_drywall(path)
    closing = close(check_of(book.job, "Q1"), "Ann", TODAY, f"{elsewhere}/a.png")
    refused(book, [add(closing, keep_tag=True)], BadValue, says="is not with the job")


@pytest.mark.parametrize("what", ["gone", "changed"])
def test_a_picture_that_is_lost_opens_its_items_everywhere(
    path: Path, what: str, capsys: pytest.CaptureFixture[str]
) -> None:
    book = before_drywall(path, "Blocks", "Straps")
    take_picture(path.parent)
    for key in ("Q1", "Q2"):
        shut(book, key, PICTURE)
    assert standing(book.job).holds == ()
    if what == "gone":
        (path.parent / PICTURE).unlink()
    else:
        take_picture(path.parent, shade=9)
    assert {each.key for each in stands(path).open} == {"Q1", "Q2"}
    with pytest.raises(Held, match=r"Q1:? Blocks"):
        go_on(book)  # the program that still runs sees it as well
    assert book.refresh() is False
    assert {each.key for each in standing(book.job).open} == {"Q1", "Q2"}
    assert main(["status", str(path)]) == 0
    assert PICTURE in capsys.readouterr().out
    assert main(["verify", str(path)]) == 4
    said = "can't be found" if what == "gone" else "was changed"
    assert f"picture {PICTURE} {said}" in capsys.readouterr().out
    take_picture(path.parent)
    assert main(["status", str(path)]) == 0
    assert PICTURE not in capsys.readouterr().out
    go_on(reopen(path))
    assert stands(path).stage == "Drywall"


def test_a_picture_lost_after_the_wall_was_closed_is_found_after(path: Path) -> None:
    book = before_drywall(path)
    take_picture(path.parent)
    shut(book, "Q1", PICTURE)
    go_on(book)
    (path.parent / PICTURE).unlink()
    now = stands(path)
    assert (now.stage, now.claimed, [each.key for each in now.found_after]) == ("Drywall", None, ["Q1"])


# --- the kind that an item takes ---


def test_each_item_takes_its_own_kind(path: Path) -> None:
    book = job_before("Drywall", path, *PLAN)
    take_picture(path.parent)
    kinds = {each.key: kinds_for(each.check) for each in items(book.job)}
    assert kinds["K1/tested"] == ("test",)
    assert kinds["K1/photographed"] == ("photo",)
    wrong = {"K1/tested": (SEEN, "seen"), "K1/photographed": (SEEN, "seen"), "K1/pulled": ("0.3 ohm", "test")}
    for key, (words, proof) in wrong.items():
        bad = close(check_of(book.job, key), "Ann", TODAY, words, proof=proof)  # type: ignore[arg-type]
        refused(book, [add(bad, keep_tag=True)], BadValue, says="is not the kind of proof")


def test_a_kind_that_was_picked_decides(path: Path) -> None:
    book = job_before("Drywall", path, Check(tag="Q1", what="Blocks", proof="photo", wants="whatever"))
    refused(book, [add(close(check_of(book.job, "Q1"), "Ann", TODAY, SEEN), keep_tag=True)], BadValue, says="picture")


# --- tests against the limit of the cable ---


@rows(
    ("kind", "carries", "passes", "fails"),
    [
        ("cat6", "", "wire map: pass", "wire map: pass, pair 3 open"),
        ("cat6", "", "1 Gb/s", "100 Mb/s"),
        ("cat6a", "10 Gbit/s", "10 Gb/s", "1 Gb/s"),
        ("cat6", "", "12.4 m", "95 m"),
        ("cat6", "", "wire map pass, no opens, no shorts", "wire map: fail"),
        ("speaker-16-2", "8 ohm", "0.3 ohm", "0.5 ohm"),
        ("speaker-16-2", "4 ohm", "0,2 \u03a9", "0.3 \u03a9"),
        ("12-2 nm", "", "insulation 200 Mohm", "insulation 0.5 Mohm"),
        ("12-2 nm", "", "insulation tester: pass", "continuity tester: pass"),
        ("12-2 nm", "", "both circuits tested before close-in, R. Sparks license EL-1147", "R. Sparks tested it"),
        ("hdmi", "2160p60", "2160p60 shown for an hour", "1080p60 shown for an hour"),
        ("hdmi", "2160p60", "4K at 60", "2160p30 shown"),
        ("rg6", "6 dB", "4.5 dB", "6.5 dB"),
        ("fibre", "", "light: pass", "no light"),
        ("infrared", "", "remote: device obeys", "remote: dead"),
    ],
)
def test_a_reading_is_judged_by_the_limit_of_its_cable(kind: str, carries: str, passes: str, fails: str) -> None:
    test = limits_of(Cable(tag="K1", type=kind, carries=carries), None)
    assert why_not(passes, test) == ""
    assert why_not(fails, test) != ""
    for junk in ("ok", "pass", "good", "x", "5", "tested", "all fine"):
        assert why_not(junk, test) != "", junk


def test_of_what_is_not_known_a_value_or_a_named_tester_will_do() -> None:
    assert why_not("3 V", ANY) == ""
    assert why_not("buzzer: pass", ANY) == ""
    assert why_not("pass", ANY) != ""
    assert why_not("buzzer: no continuity", ANY) != ""


def test_a_test_that_fails_does_not_close(path: Path) -> None:
    book = job_before("Drywall", path, *PLAN)
    one = check_of(book.job, "K1/tested")
    refused(book, [add(close(one, "Ann", TODAY, "wire map: fail"), keep_tag=True)], BadValue, says="failed")
    book.act("Test", [add(close(one, "Ann", TODAY, "wire map: pass"), keep_tag=True)])
    assert not item_of(book.job, "K1/tested").open


# --- inspections ---


def test_an_inspection_names_office_reference_and_day(path: Path) -> None:
    book = job_before("Drywall", path, *PLAN)
    now = book.job.settings
    book.act("Permit", [edit(now, msgspec.structs.replace(now, permit="needed"))])
    one = check_of(book.job, "job/inspection")
    whole = close(one, "Ann", TODAY, office="R. Wells", reference="R-112", inspected=TODAY)
    for field, nothing in (("office", "x"), ("reference", "x"), ("inspected", None)):
        bad = msgspec.structs.replace(whole, **{field: nothing})
        refused(
            book,
            [add(bad, keep_tag=True)],
            BadValue,
            says="inspection has no" if field != "office" else "No inspector or office",
        )
    later = msgspec.structs.replace(whole, inspected=TODAY + timedelta(days=1))
    refused(book, [add(later, keep_tag=True)], BadValue, says="still to come")
    needless = close(one, "Ann", TODAY, reason="small work only")
    refused(book, [add(needless, keep_tag=True)], BadValue, says="office")
    book.act("Inspected", [add(whole, keep_tag=True)])
    assert not item_of(book.job, "job/inspection").open


@pytest.mark.parametrize("given", [{}, {"permit_by": "x", "permit_office": "town hall"}, {"permit_by": "A. Clerk"}])
def test_no_permit_takes_a_name_and_an_office(path: Path, given: dict[str, str]) -> None:
    book = job_before("Design", path)
    now = book.job.settings
    book.act("Permit", [edit(now, msgspec.structs.replace(now, permit="needed"))])
    bare = Settings(
        **{**{key: getattr(now, key) for key in now.__struct_fields__}, "permit_by": "", "permit_office": "", **given}
    )
    refused(book, [edit(book.job.settings, bare)], BadValue, says="no name or office for a permit")


# --- the list ---


def test_what_leaves_the_list_is_asked_for_and_listed_with_who_and_why(path: Path) -> None:
    book = job_before("Drywall", path, *PLAN)
    one = book.job.of(Cable)["K1"]
    ways: list[list[Change]] = [
        [drop(one)],
        [edit(one, msgspec.structs.replace(one, in_wall=False))],
        [edit(one, msgspec.structs.replace(one, retired=TODAY))],
        [edit(one, msgspec.structs.replace(one, retired=TODAY + timedelta(days=30)))],
    ]
    for way in ways:
        for why in ("", "x", "ok"):
            refused(book, way, NeedsReason, why=why, says="K1/tested")
    book.act("Retire", ways[3], "a spare that nobody wants")
    off = {each.tag: (each.by, each.reason) for each in book.job.removed}
    assert off["K1/tested"] == ("Ann", "a spare that nobody wants")
    # Until that day it is in the wall, and holds the drywall.
    assert "K1/tested" in {each.key for each in stands(path).open}
    later = Book.open(path, "Ann", lambda: TODAY + timedelta(days=31))
    assert "K1/tested" not in {each.key for each in standing(later.job).items}
    assert "K1/tested" in {each.tag for each in later.job.removed}


def test_an_item_that_comes_back_is_off_the_list_of_things_taken_off(path: Path) -> None:
    book = job_before("Drywall", path, *PLAN)
    one = book.job.of(Cable)["K1"]
    book.act("Out", [edit(one, msgspec.structs.replace(one, in_wall=False))], "runs in the cabinet")
    assert {each.tag for each in reopen(path).job.removed} >= {"K1/tested"}
    book.act("In", [edit(book.job.of(Cable)["K1"], one)])
    assert {each.tag for each in book.job.removed} == set() == {each.tag for each in reopen(path).job.removed}


def test_an_open_item_behind_drywall_does_not_vanish_without_a_word(path: Path) -> None:
    book = job_before("Drywall", path, *PLAN)
    shut_all(book)
    go_on(book)
    book.act("Late", [add(Cable(tag="", type="cat6", start=Ref("B1"), end=Ref("B1")))])
    refused(book, [drop(book.job.of(Cable)["K2"])], NeedsReason, says="K2/tested")
    book.act("Gone", [drop(book.job.of(Cable)["K2"])], "entered twice")
    assert "K2/tested" in {each.tag for each in book.job.removed}


def test_what_opens_an_item_behind_drywall_asks_why_and_throws_nobody_back(path: Path) -> None:
    book = job_before("Drywall", path, *PLAN)
    shut_all(book)
    go_on(book)
    one = book.job.of(Cable)["K1"]
    moved = [edit(one, msgspec.structs.replace(one, route="up and over"))]
    refused(book, moved, NeedsReason, says="behind drywall:\n  K1/pulled")
    book.act("Moved", moved, "seen through the panel")
    now = stands(path)
    assert (now.stage, now.claimed) == ("Drywall", None)
    assert "K1/pulled" in {each.key for each in now.found_after}
