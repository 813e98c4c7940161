"""A change of framing dates itself, once something of the wall was signed off, and not before."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from store.book.book import Book
from store.book.changes import add, edit
from store.measure.length import INCH_NM, Length
from store.records.wall import BuildOut, Wall
from store.rules.core.checks import close, items
from templates.starters.load import load

DAY = date(2026, 11, 25)


def begun(path: Path, *, signed: bool) -> Book:
    """A job with a wall, its fire blocks signed off where asked for."""
    book = Book.create(path / "job.json", load("empty", DAY), "Ann", "Begin", lambda: DAY)
    book.act("Add", [add(Wall(tag="W1", name="wall"), keep_tag=True)])
    if signed:
        (item,) = [each for each in items(book.job) if each.key == "W1/fireblocking"]
        closing = close(item.check, "Ann", DAY, reason="masonry wall")
        book.act("Sign off", [add(closing, keep_tag=True)])
    return book


def wall(book: Book) -> Wall:
    return book.job.of(Wall)["W1"]


def other(book: Book, **values: object) -> None:
    book.act("Edit", [edit(wall(book), Wall(**{**{"tag": "W1", "name": "wall"}, **values}))])  # type: ignore[arg-type]


def test_what_is_entered_before_anything_is_built_has_no_date(tmp_path: Path) -> None:
    book = begun(tmp_path, signed=False)
    other(book, spacing=Length(24 * INCH_NM))
    assert wall(book).framed is None
    book.close()


def test_a_change_after_a_sign_off_is_dated_and_opens_the_item(tmp_path: Path) -> None:
    book = begun(tmp_path, signed=True)
    other(book, odd_studs=("30",))
    assert wall(book).framed == DAY
    (item,) = [each for each in items(book.job) if each.key == "W1/fireblocking"]
    assert "framing changed" in item.why_open
    assert book.undo() is not None
    assert wall(book).framed is None
    book.close()


def test_a_new_name_and_a_day_that_was_entered_stay_as_they_are(tmp_path: Path) -> None:
    book = begun(tmp_path, signed=True)
    other(book, name="media wall")
    assert wall(book).framed is None
    other(book, odd_studs=("30",), framed=date(2026, 11, 20))
    assert wall(book).framed == date(2026, 11, 20)
    book.close()


def test_a_build_out_of_framing_dates_its_wall_and_cabinet_work_does_not(tmp_path: Path) -> None:
    book = begun(tmp_path, signed=True)
    far = Length(24 * INCH_NM)
    book.act("Add", [add(BuildOut(tag="", name="run", wall="W1", x=far, width=far, depth=far, work="cabinet"))])  # type: ignore[arg-type]
    assert wall(book).framed is None
    book.act("Add", [add(BuildOut(tag="", name="breast", wall="W1", x=far, width=far, depth=far))])  # type: ignore[arg-type]
    assert wall(book).framed == DAY
    book.close()
