"""Values, days and offices that cannot be: they sign nothing off, and the refusal says what would do."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest
from msgspec.structs import replace

from store.book.changes import add, edit
from store.measure.errors import BadValue
from store.measure.length import FOOT_NM, Length
from store.measure.text import is_no_office, same_name
from store.records.field import Ref
from store.records.wall import Reading, Wall
from store.records.wiring import Box, Cable
from store.rules.cable.test_limits import test_of as limits_of
from store.rules.core.checks import close
from store.rules.core.tested import ANY, Test, shown, why_not
from store.rules.gate.days import earliest_day
from store.rules.gate.guard import Held
from store.trade.signal.speaker import loop_ohm
from tests.book.build import TODAY
from tests.jobs.gate_job import before_drywall, check_of, item_of, job_before, pass_to, refused
from tests.jobs.proofs import SEEN
from tests.rows import rows

LONG_NM = 30 * 10**9
"""A run of 30 m."""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where the job is."""
    return tmp_path / "wall.json"


# --- readings ---

ABSURD = (
    ("nm-12-2", "insulation 0 Mohm", "not possible", "insulation 2 Mohm"),
    ("nm-12-2", "insulation 99999999 Gohm", "more than is possible", "insulation 500 Gohm"),
    ("speaker-14-2", "0 ohm", "write less than its last digit, like `<0.1 ohm`", "0.3 ohm"),
    ("speaker-14-2", "0.0 ohm loop", "not possible", "loop of 0.35 ohm"),
    ("speaker-14-2", "0.05 ohm", "less than is possible", "0.38 ohm"),
    ("cat6", "10 Tbit/s", "more than is possible, 40 Gb/s", "10 Gbit/s"),
    ("cat6", "wire map: pass, 10 Tb/s", "more than is possible", "wire map: pass, 2.5 Gb/s"),
    ("cat6", "wire map: pass, 0 Gb/s", "not possible", "wire map: pass, 31 m"),
    ("cat6", "1 m", "less than is possible, 15 m", "31 m"),
    ("coax rg6", "-99 dB", "more than 10 dB", "-3 dB"),
    ("coax rg6", "signal meter: pass, -200 dBmV", "less than -15 dBmV", "signal meter: pass, -2 dBmV"),
    ("coax rg6", "signal meter: pass, 300 dBuV", "more than 90 dBµV", "signal meter: pass, 62 dBuV"),
    ("fibre", "-5 dB", "more than 3 dB", "-0.8 dB"),
    ("hdmi", "2160p60 shown for 0 min", "not possible", "2160p60 shown for 60 min"),
    ("line", "sound: hum but ok", "failed", "sound: no hum"),
    ("line", "sound: ok, slight hum", "failed", "sound: ok, hum: none"),
    ("line", "sound: no hum but it buzzes", "failed", "sound: no hum, no buzz"),
    ("line", "sound: good, crackling at times", "failed", "sound without hum or crackling"),
    ("usb", "device: seen but drops out", "failed", "device: seen, no dropouts"),
    ("usb", "device: works sometimes", "failed", "device: works"),
    ("control-18-2", "continuity: pass except one", "failed", "continuity: pass"),
    ("hdmi", "2160p60 shown, flickers", "failed", "2160p60 shown, no flicker"),
)


@rows(("kind", "absurd", "says", "good"), ABSURD)
def test_a_reading_that_cannot_be_or_has_a_but_is_none(kind: str, absurd: str, says: str, good: str) -> None:
    test = limits_of(Cable(tag="K1", type=kind), LONG_NM)
    assert says in why_not(absurd, test)
    assert why_not(good, test) == ""


def test_a_loop_shows_at_least_half_of_what_its_copper_has() -> None:
    for gauge in (12, 14, 16):
        cable = Cable(tag="K1", type=f"speaker-{gauge}-2", carries="8 ohm")
        half = loop_ohm(20 * FOOT_NM, gauge) / 2
        test = limits_of(cable, 20 * FOOT_NM)
        assert why_not(f"{half * 1.01:.5f} ohm", test) == ""
        assert "less than is possible" in why_not(f"{half * 0.99:.5f} ohm", test)
        assert why_not(f"{half * 0.99:.5f} ohm", limits_of(cable, None)) == ""
    assert "not possible" in why_not("0 ohm", ANY)
    assert why_not("<0.1 ohm", ANY) == ""


def test_the_plan_tells_what_a_run_can_show(path: Path) -> None:
    ends = [Box(tag=f"B{n}", wall=Ref("W1"), what="low-voltage", new=False, x=x, y=Length(FOOT_NM))
            for n, x in ((1, Length(FOOT_NM)), (2, Length(41 * FOOT_NM)))]  # fmt: skip
    cable = Cable(tag="K1", type="speaker-14-2", start=Ref("B1"), end=Ref("B2"))
    wide = Reading(tag="D1", wall=Ref("W1"), what="width", value=Length(50 * FOOT_NM))
    book = job_before("Drywall", path, Wall(tag="W1", name="Wall"), wide, *ends, cable)
    one = check_of(book.job, "K1/tested")
    refused(book, [add(close(one, "Ann", TODAY, "0.01 ohm"), keep_tag=True)], BadValue, says="less than is possible")
    book.act("Test", [add(close(one, "Ann", TODAY, "0.25 ohm"), keep_tag=True)])
    assert not item_of(book.job, "K1/tested").open


# --- days ---


@pytest.mark.parametrize("day", [date(1900, 1, 1), date(1950, 6, 1), date(2020, 1, 1), TODAY - timedelta(days=181)])
def test_a_day_from_before_the_job_signs_nothing(path: Path, day: date) -> None:
    book = before_drywall(path)
    one = check_of(book.job, "Q1")
    for bad in (
        close(one, "Ann", day, SEEN),
        close(one, "Ann", TODAY, office="building department", reference="R-112", inspected=day),
    ):
        said = refused(book, [add(bad, keep_tag=True)], BadValue, says="is too early")
        assert "Enter the day it was done" in said


def test_the_first_day_on_record_tells_when_the_job_began(path: Path) -> None:
    book = before_drywall(path)
    first = TODAY - timedelta(days=180)
    assert earliest_day(book.job) == first
    whole = close(
        check_of(book.job, "Q1"), "Ann", TODAY, office="building department", reference="R-1", inspected=first
    )
    book.act("Inspected", [add(whole, keep_tag=True)])
    assert not item_of(book.job, "Q1").open
    read = Reading(tag="", wall=Ref("W1"), what="width", value=Length(FOOT_NM), date=TODAY - timedelta(days=100))
    earlier = book.act("Read", [add(Wall(tag="W1", name="Wall"), keep_tag=True), add(read)])
    assert earliest_day(earlier) == first - timedelta(days=100)
    old = replace(read, tag="D9", date=date(1901, 1, 1))
    assert earliest_day(earlier.having(old)) == TODAY - timedelta(days=3660)
    late = replace(read, tag="D9", date=TODAY + timedelta(days=9))
    assert earliest_day(earlier.having(late)) == first - timedelta(days=100)


def test_nothing_is_signed_off_before_it_was_inspected(path: Path) -> None:
    book = before_drywall(path)
    one = check_of(book.job, "Q1")
    whole = close(one, "Ann", TODAY - timedelta(days=1), office="building department", reference="R-1", inspected=TODAY)
    refused(book, [add(whole, keep_tag=True)], BadValue, says="dated before its inspection")


def test_a_stage_is_not_passed_before_the_one_that_it_follows(path: Path) -> None:
    book = job_before("Rough-in", path)
    early = pass_to("Rough-in", day=TODAY - timedelta(days=1))
    refused(book, [add(early)], Held, says="wrong date: before the move to Design")


# --- offices ---

NO_OFFICES = ("", "x", "my own office", "our office", "me", "myself", "home office", "the office", "inspector",
              "an inspector", "local inspection office", "I")  # fmt: skip
OFFICES = ("building department", "town hall", "R. Wells", "Nmeth inspection office", "City of Elm", "建築課")


@pytest.mark.parametrize("office", NO_OFFICES)
def test_ones_own_office_is_none(path: Path, office: str) -> None:
    assert is_no_office(office)
    book = job_before("Drywall", path)
    now = book.job.settings
    book.act("Permit", [edit(now, replace(now, permit="needed"))])
    one = check_of(book.job, "job/inspection")
    bad = replace(close(one, "Ann", TODAY, office="x y", reference="R-112", inspected=TODAY), office=office)
    refused(book, [add(bad, keep_tag=True)], BadValue, says="No inspector or office entered. Enter which office")
    needless = replace(close(one, "Ann", TODAY, reason="small work only"), office=office)
    refused(book, [add(needless, keep_tag=True)], BadValue, says="without the office that said so")
    free = replace(now, permit="not needed", permit_by="A. Clerk", permit_office=office)
    refused(book, [edit(book.job.settings, free)], BadValue, says="no name or office for a permit")


@rows("office", OFFICES)
def test_an_office_by_its_name_or_somebody_from_it_will_do(office: str) -> None:
    assert not is_no_office(office)


def test_the_owner_is_no_inspector(path: Path) -> None:
    book = before_drywall(path)
    now = book.job.settings
    book.act("Owner", [edit(now, replace(now, owner="Ann Hill"))])
    own = close(check_of(book.job, "Q1"), "Ann", TODAY, office="ann hill.", reference="R-112", inspected=TODAY)
    refused(book, [add(own, keep_tag=True)], BadValue, says="The owner can't inspect")
    assert same_name("A. Clerk", "a clerk")
    assert not same_name("", "")


# --- each condition by itself ---


def test_a_value_is_shown_in_the_unit_that_people_write() -> None:
    shows = [(0.4, "ohm"), (999_999, "ohm"), (1e6, "ohm"), (2e6, "ohm"), (2e6, "dB"), (0.5, "Gb/s")]
    assert [shown(*each) for each in shows] == [
        "0.4 ohm", "1e+06 ohm", "1 Mohm", "2 Mohm", "2e+06 dB", "0.5 Gb/s"
    ]  # fmt: skip


def test_only_the_test_of_its_own_cable_counts() -> None:
    def of(kind: str, carries: str = "") -> Test:
        return limits_of(Cable(tag="K1", type=kind, carries=carries), None)

    assert why_not("1080p60 seen on the set", of("cat6")) != ""
    assert why_not("hdmi tester: pass", of("hdmi", "2160p60")) == ""
    assert why_not("2160p60 shown", of("hdmi", "2160p60")) == ""
    assert "is needed" in why_not("1080p60 shown", of("hdmi", "2160p60"))
    assert "is needed" in why_not("2160p30 shown", of("hdmi", "2160p60"))
    assert why_not("48 Gb/s", of("hdmi")) != ""
    for said, good in (("40 Gb/s", False), ("48 Gb/s", True), ("400 Gb/s", False)):
        assert (why_not(said, of("hdmi", "48 Gbit/s")) == "") is good, said
    assert why_not("wire map of the whole run", of("cat6")) != ""
    assert why_not("pass", of("cat6")) != ""
    licensed = "wired and tried by R. Sparks, license EL-1147"
    assert why_not(licensed, of("nm-12-2")) == ""
    for kind, words in (("cat6", licensed), ("nm-12-2", "license EL-1147"), ("nm-12-2", "wired by R. Sparks")):
        assert why_not(words, of(kind)) != "", (kind, words)
