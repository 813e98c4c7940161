"""Each condition of proof by itself: the nearest words on both sides of it."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from store.records.gate import Closing, Proof
from store.rules.core.checks import RoughIn, closed_line
from store.rules.core.proof import (
    inspection_in,
    is_number,
    kind_meant,
    kinds_for,
    proof_missing,
    wanted,
    wants_photo,
)
from store.rules.core.tested import ANY, Limit, Test, modes_of, why_not
from tests.rows import rows

DAY = date(2026, 11, 25)
LOOP = Test((Limit("loop", "ohm", least=0.1, most=0.5, source="s", low=0.1, high=0.5, reason="r"),), ("meter",))


def check(key: str = "Q1", wants: str = "", proof: Proof = "", test: Test | None = None) -> RoughIn:
    """An item, as far as its proof goes."""
    return RoughIn(key, "what", "owner", "", wants, (), {}, proof, test)


def missing(one: RoughIn, lost: tuple[str, ...] = (), **given: Any) -> str:
    """What a closing of it lacks."""
    own: dict[str, Any] = {"by": "Ann", "date": DAY, "proof": "seen", "evidence": "both blocks nailed", **given}
    return proof_missing(one, Closing(tag=one.key, **own), lost)


def test_the_kinds_that_an_item_takes() -> None:
    assert kinds_for(check(proof="test")) == ("test",)
    assert kinds_for(check("K1/tested")) == ("test",)
    assert kinds_for(check("K1/other")) == ("photo", "seen", "test", "inspection")
    for wants, kinds in (
        ("photo", ("photo",)),
        ("a picture with a tape in it", ("photo",)),
        ("inspection of it", ("inspection",)),
        ("photo, or who saw it", kinds_for(check())),
        ("photo/seen", kinds_for(check())),
        ("who saw the photo", kinds_for(check())),
    ):
        assert kinds_for(check(wants=wants)) == kinds, wants
        assert kinds_for(check("K1/pulled", wants)) == ("seen", "photo"), "the plan decides for its own"
    assert wants_photo(check(wants="photo"))
    assert not wants_photo(check())


def test_the_kind_that_is_meant_by_what_is_entered() -> None:
    cases: list[tuple[RoughIn, str, str, Proof]] = [
        (check(), "both blocks nailed", "", "seen"),
        (check(), "wall.jpg", "", "photo"),
        (check(), "0.3 ohm", "", "test"),
        (check(), "both blocks nailed", "town hall", "inspection"),
        (check("K1/pulled"), "0.3 ohm", "", "seen"),
        (check("K1/pulled"), "wall.jpg", "town hall", "photo"),
        (check("K1/tested"), "both blocks nailed", "", "test"),
        (check("K1/tested"), "wall.jpg", "", "test"),
        (check("K1/photographed"), "both blocks nailed", "", "photo"),
        (check("job/inspection"), "R. Wells, R-1", "", "inspection"),
        (check(test=LOOP), "0.9 ohm", "", "seen"),
        (check(test=LOOP), "0.3 ohm", "", "test"),
    ]
    for one, words, office, kind in cases:
        assert kind_meant(one, words, office) == kind, (one.key, words, office)


def test_an_inspection_in_one_line() -> None:
    assert inspection_in("R. Wells, R-112, dec 4 2025", DAY) == ("R. Wells", "R-112", date(2025, 12, 4))
    assert inspection_in("R. Wells; R-112; yesterday", DAY) == ("R. Wells", "R-112", DAY - timedelta(days=1))
    assert inspection_in("R. Wells, R-112", DAY) == ("R. Wells", "R-112", DAY)
    assert inspection_in("R. Wells", DAY) == ("R. Wells", "", DAY)
    assert inspection_in("R. Wells,, R-112", DAY) == ("R. Wells", "R-112", DAY)
    assert inspection_in(" , ", DAY) == ("", "", DAY)
    assert inspection_in("R. Wells, R-112, some day", DAY) == ("R. Wells", "R-112", None)


def test_what_is_signed_off_by_a_name_on_proof_of_its_kind() -> None:
    assert missing(check()) == ""
    assert "has no name" in missing(check(), by="x")
    assert "not the kind of proof" in missing(check("K1/tested"))
    assert "a photo (a picture file), or what was seen" in wanted(("photo", "seen"))
    assert wanted(("seen",)) == "what was seen, in words"
    assert "no picture entered" in missing(check(), proof="photo")
    whole: dict[str, Any] = {"proof": "photo", "pictures": {"a.jpg": "0", "b.jpg": "1"}}
    assert missing(check(), **whole) == ""
    assert missing(check(), ("c.jpg",), **whole) == ""
    assert "b.jpg" in missing(check(), ("b.jpg",), **whole)
    assert missing(check(test=LOOP), proof="test", evidence="0.3 ohm") == ""
    assert missing(check(test=LOOP), proof="test", evidence="0.9 ohm") != ""
    assert missing(check(), proof="test", evidence="3 V") == ""


def test_what_is_not_needed_is_so_for_a_reason_and_an_inspection_by_an_office() -> None:
    def needless(one: RoughIn, **given: Any) -> str:
        own = {"outcome": "not needed", "proof": "reason", "evidence": "", "reason": "no stud is bored", **given}
        return missing(one, **own)

    assert needless(check()) == ""
    assert "without a reason" in needless(check(), reason="x")
    assert "has no name" in needless(check(), by="")
    one = check("job/inspection")
    assert "without the office" in needless(one)
    assert "without the office" in needless(one, office="my own office")
    assert needless(one, office="town hall") == ""
    assert needless(check(), office="") == "" == needless(check("K1/tested"))


def test_what_was_closed_before_proof_was_asked_for() -> None:
    old: dict[str, Any] = {"proof": "", "evidence": "ok"}
    assert missing(check(), **old) == ""
    assert missing(check("K1/tested"), **old) == ""
    assert "no name" in missing(check(), **{**old, "by": " "})
    assert "no proof" in missing(check(), **{**old, "evidence": " "})
    needless: dict[str, Any] = {"proof": "", "outcome": "not needed", "evidence": ""}
    assert "without a reason" in missing(check(), **needless, reason=" ")
    assert missing(check(), **needless, reason="no") == ""
    assert missing(check(), **old, reason="") == ""


def test_an_inspection_has_office_reference_and_day() -> None:
    whole: dict[str, Any] = {"proof": "inspection", "office": "town hall", "reference": "R-112", "inspected": DAY}
    assert missing(check(), **whole) == ""
    assert "office" in missing(check(), **{**whole, "office": "the office"})
    assert "no date" in missing(check(), **{**whole, "inspected": None})
    for reference, good in (("1147", True), ("12", True), ("1", False), ("x", False), ("card at the panel", True)):
        assert (missing(check(), **{**whole, "reference": reference}) == "") is good, reference
    assert [is_number(each) for each in ("R-112", "12", "1", "R", "")] == [True, True, False, False, False]


@rows(
    ("words", "good"),
    [
        ("both blocks nailed", True), ("blocks nailed", True), ("nailed", False), ("ok fine", False), ("14 in", True),
        ("photo 12", False), ("photo of it", False),
        ("photos were taken", False), ("we have a picture of it here", False),
        ("photo 12 shows both blocks", True), ("photo, seen", False), ("photo 12 shows", False),
        ("photo 12 shows blocks", True),
        ("photo wall.jpg", True), ("", False), ("x y", False),
    ],
)  # fmt: skip
def test_what_was_seen_is_said_in_two_words_or_more(words: str, good: bool) -> None:
    assert (missing(check(), evidence=words) == "") is good


# --- readings ---


def test_a_limit_holds_to_its_last_digit() -> None:
    for value, good in (("0.1", True), ("0.09", False), ("0.5", True), ("0.51", False)):
        assert (why_not(f"{value} ohm", LOOP) == "") is good, value
    bounds = Test((Limit("loop", "ohm", low=0.1, high=0.5, reason="r"),))
    for value, says in (("0.1", ""), ("0.09", "less than is possible"), ("0.5", ""), ("0.51", "more than is possible")):
        said = why_not(f"{value} ohm", bounds)
        assert (said == "") is (says == ""), value
        assert says in said
    assert why_not("3 V", bounds) != ""
    assert why_not("0.3 ohm and 0.9 ohm", LOOP) != "", "every value is judged"
    assert why_not("3 V", LOOP) != ""
    assert why_not("3 V", ANY) == ""
    assert why_not("3 V", Test(mode=(0, 0))) != ""
    assert why_not("3 V", Test(testers=("meter",))) != ""
    assert why_not("0 V, proved dead by the meter", ANY) == ""
    for none in ("0 m", "0 min", "0 %", "0 Hz", "-3 V"):
        assert "not possible" in why_not(none, ANY), none
    assert why_not("0 dB", ANY) == "" == why_not("-3 dB", ANY)


def test_pictures_are_read_with_their_rate() -> None:
    assert list(modes_of("2160p60, 1080p and 4K at 120")) == [(2160, 60), (1080, 0), (2160, 120)]
    wanted_mode = Test(mode=(1080, 60))
    for said, good in (("1080p60 shown", True), ("2160p60 shown", True), ("720p60 shown", False),
                       ("1080p30 shown", False), ("1080p shown", True)):  # fmt: skip
        assert (why_not(said, wanted_mode) == "") is good, said


def test_a_closing_in_one_line() -> None:
    def line(**given: Any) -> str:
        own: dict[str, Any] = {"by": "Ann", "date": DAY, "proof": "seen", "evidence": "both nailed", **given}
        return closed_line(Closing(tag="Q1", **own))

    assert line().endswith("by Ann: both nailed")
    assert line(proof="").endswith("both nailed (signed off before proof was asked for)")
    inspected = {"proof": "inspection", "office": "town hall", "reference": "R-1", "inspected": DAY}
    assert "town hall, R-1, " in line(**inspected)
    assert line(**inspected).endswith(": both nailed")
    assert not line(**{**inspected, "evidence": ""}).endswith(": ")
    assert "town hall" not in line(**{**inspected, "inspected": None})
    assert "town hall" not in line(**{**inspected, "proof": "seen"})
    assert line(outcome="not needed", reason="no stud is bored").endswith("no stud is bored")
