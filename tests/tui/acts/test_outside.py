"""What was changed outside of the program, as a person is asked about it."""

from __future__ import annotations

from pathlib import Path

from store.measure.length import INCH_NM, Length
from store.records.field import Ref
from store.records.wiring import Box, Cable
from tests.book.build import make, reopen, rewrite, wall
from tui.acts.outside import change_of


def test_each_field_is_told_by_its_title_in_the_words_of_its_form(tmp_path: Path) -> None:
    box = Box(tag="B1", what="low-voltage", wall=Ref("W1"), x=Length(20 * INCH_NM))
    make(tmp_path / "wall.json", wall("W1"), box, Cable(tag="K1", type="cat6")).close()

    def by_hand(tables: dict[str, dict[str, dict[str, object]]]) -> None:
        tables["cable"]["1"] |= {"in_wall": False, "name": "edited", "retired": "2026-11-20"}
        tables["box"]["1"] |= {"x": "30 in"}
        tables["wall"]["2"] = {"tag": "W7", "name": "by hand"}

    rewrite(tmp_path / "wall.json", by_hand)
    book = reopen(tmp_path / "wall.json")
    told = {
        f"{edit.tag} {field}".strip(): change_of(book, edit, field)
        for edit in book.job.outside
        for field in edit.fields or ("",)
    }
    assert told == {
        "K1 in_wall": "“in the wall”: was yes, is no",
        "K1 name": "“name”: was blank, is edited",
        "K1 retired": "“retired”: was blank, is Nov 20, 2026",
        "B1 x": "“from left”: was 1'-8\", is 2'-6\"",
        "W7": "that it was added",
    }
