"""A sheet of a metric job reads in British and IEC words, and what people typed stays as typed."""

from __future__ import annotations

from store.measure.terms import CONCEPTS, TERMS, regional
from store.records.job import Settings
from store.records.people import Contact
from store.records.wall import Wall
from store.records.whole import Job
from store.rules.core.typed import typed_terms
from templates.sheets.region import in_region
from tests.rows import rows


def job(region: str, *names: str) -> Job:
    contacts = {f"T{at}": Contact(tag=f"T{at}", name=name, trade="owner") for at, name in enumerate(names, 1)}
    return Job(tables={"job": {"job": Settings(tag="job", name="a", region=region)}, "contact": contacts})  # type: ignore[arg-type]


@rows("form", ["html", "md", "txt", "svg", "csv", "ics"])
def test_words_of_the_program_are_turned_and_typed_ones_are_not(form: str) -> None:
    typed = "Drywall & Sons' receptacle" if form in ("html", "svg") else "Drywall, Sons' receptacle_2"
    written = {"md": typed.replace("_", "\\_"), "ics": typed.replace(",", "\\,")}.get(form, typed)
    text = f"Cover the receptacle. {written}"
    turned = in_region(text, form, job("metric", typed))
    assert turned == f"Cover the socket-outlet. {written}"
    assert in_region(text, form, job("us", "x")) == text


def test_escaped_names_are_known_as_typed_and_marks_are_left_alone() -> None:
    text = '<p class="color"><style>p { color: red }</style>Drywall &#39;n&#39; more, gray drywall</p>'
    assert in_region(text, "html", job("metric", "Drywall 'n' more")) == (
        '<p class="color"><style>p { color: red }</style>Drywall &#39;n&#39; more, grey plasterboard</p>'
    )


def test_drawings_for_other_programs_keep_their_words() -> None:
    assert in_region("raceway,receptacle", "dxf", job("metric")) == "raceway,receptacle"


def test_only_what_holds_a_word_of_the_table_has_to_be_kept() -> None:
    assert typed_terms(job("metric", "meter", "a drywall saw", "old house")) == {"meter", "a drywall saw"}


def test_groups_that_the_program_enters_on_a_wall_are_not_taken_for_typed() -> None:
    bought = {"W1": Wall(tag="W1", name="Drywall side", parts=("framing", "drywall"))}
    assert typed_terms(Job(tables={**job("metric").tables, "wall": bought})) == {"Drywall side"}


def test_turning_twice_changes_no_more() -> None:
    for key in CONCEPTS:
        once = regional(f"the {TERMS['us'][key]} here", True)
        assert regional(once, True) == once


def test_amperes_are_no_article() -> None:
    """In `32 A breaker` the A is a unit: it stays, whatever the next word becomes."""
    assert regional("A 32 A breaker is more than a breaker carries", True) == "A 32 A MCB is more than an MCB carries"
    assert regional("a breaker", True) == "an MCB"
