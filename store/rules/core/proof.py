"""Proof that a rough-in item is done: of which kind it must be, and whether what was entered is of that kind.

Photo: a picture that is really there, its content noted. Test: see `tested`. Inspection: office or inspector,
reference, date. Seen: who, and what was seen. Whatever says nothing (`x`, `ok`, signs that nobody sees) is none.
"""

from __future__ import annotations

import re
from collections.abc import Container
from datetime import date
from typing import Protocol

from store.measure.dates import parse_date
from store.measure.errors import BadValue
from store.measure.late import Late
from store.measure.text import is_blank, is_junk, is_no_name, is_no_office, words_of
from store.records.gate import Closing, Proof
from store.rules.core.tested import ANY, Test, why_not

PICTURES = (".jpg", ".jpeg", ".png", ".gif", ".webp", ".heic", ".heif", ".tif", ".tiff", ".bmp")
"""Endings of picture files that cameras and telephones write."""
KINDS: tuple[Proof, ...] = ("photo", "test", "inspection", "seen")
BY_ASPECT: dict[str, tuple[Proof, ...]] = {
    "pulled": ("seen", "photo"),
    "labelled": ("seen", "photo"),
    "tested": ("test",),
    "photographed": ("photo",),
    "inspection": ("inspection",),
    "in": ("seen", "photo"),
    "string": ("seen", "photo"),
    "agreed": ("seen", "photo"),
}
"""The kinds of proof that an item of the plan takes, by the second part of its key."""
SEEN_OR_SHOWN: tuple[Proof, ...] = ("photo", "seen", "test", "inspection")
"""What every other item takes."""
FOR_MANY: frozenset[Proof] = frozenset({"photo", "seen", "inspection"})
"""Kinds of which one proof can stand for several items; a reading is of one thing."""
BEFORE = "signed off before proof was asked for"

_NAMED = Late(rf"[^\s,;|()\"']+(?:{'|'.join(re.escape(each) for each in PICTURES)})\b", re.IGNORECASE)
_A_PHOTO = Late(r"\b(?:photos?|pictures?|pics?|images?|img)\b\s*(?:no\.?|#)?\s*\d*", re.IGNORECASE)
_ASKS_PHOTO = Late(r"\s*(?:an? |the )?(?:photo|picture)s?\b", re.IGNORECASE)
_ASKS_INSPECTION = Late(r"\s*(?:an? |the )?inspection\b", re.IGNORECASE)
_CHOICE = Late(r"\bor\b|/", re.IGNORECASE)
_DONE = r"(?:done|seen|pulled|fixed|finished|labell?ed|nailed|fastened|checked)"
_NOT_DONE = Late(
    rf"\bnot\b[^.;,]*\byet\b|\bnot (?:been )?{_DONE}\b|\byet to\b|\bstill (?:to|missing|open|needs?)\b|"
    rf"\b(?:to|will|must) be (?:{_DONE}|set)\b|\b(?:tomorrow|next week|later(?: today| on)?)\W*$|"
    r"\bwaiting for\b|\b(?:is|are|both|all)(?: \w+)? missing\b|\bforgot(?:ten)?\b|\bby nobody\b|"
    r"\b(?:can ?not|can['’]t|could not|couldn['’]t) (?:see|find)\b",
    re.IGNORECASE,
)
"""Words of what is still to be done: whoever writes them signs nothing off."""


class Wanting(Protocol):
    """What a check tells of the proof that it takes."""

    @property
    def key(self) -> str:
        """Its key."""

    @property
    def wants(self) -> str:
        """The proof asked for, in words."""

    @property
    def proof(self) -> Proof:
        """The kind that was picked; empty for none."""

    @property
    def test(self) -> Test | None:
        """How it is tested, where that is known."""


def kinds_for(check: Wanting) -> tuple[Proof, ...]:
    """The kinds of proof that will do, the most usual first.

    One that was picked decides; else the aspect of an item of the plan; else the words of a hand-written item, where
    they leave no choice.
    """
    if check.proof:
        return (check.proof,)
    _, slash, aspect = check.key.partition("/")
    if slash:
        return BY_ASPECT.get(aspect, SEEN_OR_SHOWN)
    if not _CHOICE.search(check.wants):
        if _ASKS_PHOTO.match(check.wants):
            return ("photo",)
        if _ASKS_INSPECTION.match(check.wants):
            return ("inspection",)
    return SEEN_OR_SHOWN


def wants_photo(check: Wanting) -> bool:
    """True for an item that nothing but a picture closes."""
    return kinds_for(check) == ("photo",)


def kind_meant(check: Wanting, evidence: str, office: str = "") -> Proof:
    """The kind of proof that somebody means who entered this."""
    kinds = kinds_for(check)
    if "inspection" in kinds and office:
        return "inspection"
    if "photo" in kinds and pictures_named(evidence):
        return "photo"
    if "test" in kinds and ("seen" not in kinds or not why_not(evidence, check.test or ANY)):
        return "test"
    return "seen" if "seen" in kinds else kinds[0]


def inspection_in(words: str, day: date) -> tuple[str, str, date | None]:
    """Office or inspector, reference and day of an inspection noted in one line: `R. Wells, R-112, dec 4`.

    `day` is the one it is written down on, and the day of the inspection where none is told.
    """
    parts = [each.strip() for each in re.split(r"[;,]", words) if each.strip()]
    told: date | None = day
    if len(parts) > 2:
        try:
            told = parse_date(", ".join(parts[2:]), day)
        except BadValue:
            told = None
    return (parts[0] if parts else "", parts[1] if len(parts) > 1 else "", told)


def pictures_named(evidence: str) -> tuple[str, ...]:
    """The picture files that an evidence names, like `open-wall-2.jpg` in `photo open-wall-2.jpg, seen by Robin`.

    A text that is one file's path as a whole may have blanks in it.
    """
    whole = evidence.strip()
    if whole.lower().endswith(PICTURES) and len(_NAMED.findall(whole)) == 1 and "/" in whole.partition(" ")[0]:
        return (whole,)
    return tuple(dict.fromkeys(_NAMED.findall(evidence)))


def proof_missing(check: Wanting, closing: Closing, lost: Container[str] = ()) -> str:
    """What a closing lacks to count, in words that say what would do; empty when it is whole.

    `lost` holds the pictures that are gone or are not what they were.
    """
    if not closing.proof:
        return _missing_before(closing)
    if is_no_name(closing.by):
        return "its sign-off has no name. Enter who saw it"
    kinds = kinds_for(check)
    if closing.outcome == "not needed":
        return _needless_missing(closing, kinds)
    if closing.proof not in kinds:
        return f"{closing.proof} is not the kind of proof for it. Enter {wanted(kinds)}"
    if closing.proof == "photo":
        return _photo_missing(closing, lost)
    if closing.proof == "test":
        return why_not(closing.evidence, check.test or ANY)
    return _inspection_missing(closing) if closing.proof == "inspection" else _seen_missing(closing)


def _needless_missing(closing: Closing, kinds: tuple[Proof, ...]) -> str:
    """An item is not needed for a reason; an inspection only where the office says so."""
    if is_junk(closing.reason):
        return "it is marked not needed without a reason. Enter why"
    if kinds == ("inspection",) and is_no_office(closing.office):
        return "an inspection is marked not needed without the office that said so. Enter who said it"
    return ""


def wanted(kinds: tuple[Proof, ...]) -> str:
    """Kinds of proof in words: `a photo, or what was seen`."""
    said = {
        "photo": "a photo (a picture file)",
        "test": "a reading with its unit, or what the tester is and what it said",
        "inspection": "office or inspector, reference and date",
        "seen": "what was seen, in words",
    }
    words = [said[each] for each in kinds]
    return ", ".join(words[:-1]) + f", or {words[-1]}" if len(words) > 1 else words[0]


def _missing_before(closing: Closing) -> str:
    """Older closings count as they did."""
    if is_blank(closing.by):
        return "its sign-off has no name"
    if closing.outcome == "closed" and is_blank(closing.evidence):
        return "its sign-off has no proof"
    if closing.outcome == "not needed" and is_blank(closing.reason):
        return "it is marked not needed without a reason"
    return ""


def _photo_missing(closing: Closing, lost: Container[str]) -> str:
    if not closing.pictures:
        return "no picture entered. Enter the picture file"
    gone = [each for each in closing.pictures if each in lost]
    return f"its picture {gone[0]} is missing or was changed. Put it back, or sign off with another" if gone else ""


def _inspection_missing(closing: Closing) -> str:
    if is_no_office(closing.office):
        return "no inspector or office entered. Enter which office inspected, or who came from it"
    if not is_number(closing.reference) and is_junk(closing.reference):
        return "the inspection has no reference. Enter the number of the report or permit"
    return "the inspection has no date. Enter the day of it" if closing.inspected is None else ""


def is_number(text: str) -> bool:
    """True for a number as offices give it, of two digits or more: `1147`, `R-112`."""
    return sum(each.isdigit() for each in text) > 1


def _seen_missing(closing: Closing) -> str:
    words = words_of(closing.evidence)
    if _A_PHOTO.search(closing.evidence) and not pictures_named(closing.evidence):
        left = _A_PHOTO.sub(" ", closing.evidence)
        if is_junk(left) or len(words_of(left)) < 2:
            return "a photo is mentioned but no picture file. Enter the file, or what was seen"
    if len(words) < 2 or (is_junk(closing.evidence) and not _measured(closing.evidence)):
        return "its sign-off has no proof. Enter what was seen, in two words or more"
    return ""


def says_not_done(closing: Closing) -> str:
    """Why what was written down as seen is no sign-off, where it says itself that the work is not done; else empty.

    Asked when it is entered alone: what was signed off before goes on counting.
    """
    if closing.outcome == "closed" and closing.proof == "seen" and (found := _NOT_DONE.search(closing.evidence)):
        return f"“{found[0]}” says it is still to be done. Enter what was seen once it is"
    return ""


def _measured(text: str) -> bool:
    """True for a measure alone: `14 in`."""
    return not why_not(text, ANY)
