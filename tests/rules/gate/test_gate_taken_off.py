"""Ways to lose an item: it leaves the list only for a reason, before the wall is covered and after."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import timedelta
from pathlib import Path

import pytest
from msgspec.structs import replace

from store.book.book import Book
from store.book.changes import Change, drop, edit
from store.measure.length import INCH_NM, Length
from store.records.access import Panel
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.wall import Opening, Wall
from store.records.wiring import Box, Cable, Raceway
from store.rules.core.findings import findings
from store.rules.core.taken_off import taken_off
from store.rules.gate.gate import standing
from store.rules.gate.guard import Held, NeedsReason
from store.rules.gate.status import status
from tests.book.build import TODAY, reopen
from tests.jobs.gate_job import go_on, job_before, refused, shut_all
from tui.cli.main import main


def inches(many: float) -> Length:
    return Length(round(many * INCH_NM))


WHOLE: tuple[Record, ...] = (
    Wall(tag="W1", name="Wall"),
    Wall(tag="W2", name="Other"),
    Box(tag="B1", name="signal", what="low-voltage", wall=Ref("W1"), x=inches(20), y=inches(20)),
    Box(tag="B2", name="far", what="low-voltage", wall=Ref("W1"), x=inches(60), y=inches(20)),
    Box(tag="B3", name="spare", what="low-voltage", wall=Ref("W1"), x=inches(80), y=inches(20)),
    Cable(tag="K1", type="cat6", rating="CMR", start=Ref("B1"), end=Ref("B2"), spare=True),
    Raceway(tag="R1", type="ENT", size="1", start=Ref("B1"), end=Ref("B2")),
    Panel(tag="A1", name="hatch", wall=Ref("W1"), x=inches(90), y=inches(10), width=inches(12), height=inches(12)),
    Opening(
        tag="N1", name="screen", use="screen", wall=Ref("W1"), x=inches(30), y=inches(40), width=inches(50),
        height=inches(30), depth=inches(4),
    ),
    Equipment(tag="E1", name="bracket thing", mounting="wall bracket"),
)  # fmt: skip


def covered(path: Path) -> Book:
    """A job at Drywall with all that an item follows from, every item signed off."""
    book = job_before("Drywall", path, *WHOLE)
    shut_all(book)
    go_on(book, "nothing holds")
    assert (standing(book.job).stage, standing(book.job).found_after) == ("Drywall", ())
    return book


def changed(book: Book, tag: str, **values: object) -> list[Change]:
    """The change of some fields of a record."""
    one = book.job.get(tag) or book.job.settings
    return [edit(one, replace(one, **values))]


WAYS: dict[str, tuple[str, dict[str, object]]] = {
    "a cable said not to be in the wall": ("K1/tested", {"tag": "K1", "in_wall": False}),
    "a cable retired": ("K1/pulled", {"tag": "K1", "retired": TODAY}),
    "a box said to be existing": ("B3/set", {"tag": "B3", "new": False}),
    "an opening for something light": ("N1/backing", {"tag": "N1", "use": "other"}),
    "a raceway turned into a grommet": ("R1/string", {"tag": "R1", "type": "grommet"}),
}


@pytest.mark.parametrize("way", WAYS.values(), ids=WAYS)
@pytest.mark.parametrize("closed_in", [False, True], ids=["open wall", "covered"])
def test_nothing_signed_off_leaves_the_list_without_a_reason(
    tmp_path: Path, way: tuple[str, dict[str, object]], closed_in: bool
) -> None:
    book = covered(tmp_path / "wall.json") if closed_in else job_before("Drywall", tmp_path / "wall.json", *WHOLE)
    key, values = way[0], dict(way[1])
    _goes_only_for_a_reason(book, changed(book, str(values.pop("tag")), **values), key)


@pytest.mark.parametrize(("tag", "key"), [("K1", "K1/tested"), ("B3", "B3/set"), ("A1", "A1/framed"), ("R1", "R1/in")])
def test_nothing_signed_off_is_deleted_without_a_reason_after_close_in(tmp_path: Path, tag: str, key: str) -> None:
    book = covered(tmp_path / "wall.json")
    one = book.job.get(tag)
    assert one is not None
    _goes_only_for_a_reason(book, [drop(one)], key)


def test_a_permit_is_called_off_for_a_reason_only_after_close_in(tmp_path: Path) -> None:
    book = job_before("Drywall", tmp_path / "wall.json", *WHOLE)
    book.act("Ask", changed(book, "job", permit="needed"))
    shut_all(book)
    go_on(book, "nothing holds")
    no = {"permit": "not needed", "permit_by": "A. Clerk", "permit_office": "building department"}
    _goes_only_for_a_reason(book, changed(book, "job", **no), "job/inspection")


def test_undoing_what_made_an_item_asks_as_well(tmp_path: Path) -> None:
    book = covered(tmp_path / "wall.json")
    book.act("In again", changed(book, "B3", new=False), "it was there before the job")
    book.undo("it was not")
    assert taken_off(book.job) == ()
    with pytest.raises(NeedsReason, match="B3/set"):
        book.act("Out", changed(book, "B3", new=False))


def test_what_is_to_leave_on_a_day_to_come_is_asked_for_again_when_it_leaves_before(tmp_path: Path) -> None:
    book = job_before("Drywall", tmp_path / "wall.json", *WHOLE)
    later = changed(book, "K1", retired=TODAY + timedelta(days=400))
    refused(book, later, NeedsReason, says="K1/tested")
    book.act("Retire", later, "goes when the new one is pulled")
    assert [each.key for each in standing(book.job).items if each.key.startswith("K1/")]
    book.act("Name", changed(book, "K1", name="old"))
    (stop,) = (each for each in findings(book.job) if each.rule == "retired_too_early")
    assert not stop.takes_answer
    gone = book.job.get("K1")
    assert gone is not None
    for change in ([drop(gone)], changed(book, "K1", in_wall=False), changed(book, "K1", retired=TODAY)):
        _goes_only_for_a_reason(book, change, "K1/tested")
        book.undo("not yet")


def test_a_job_is_not_emptied_in_one_action_with_its_moves(tmp_path: Path) -> None:
    book = covered(tmp_path / "wall.json")
    everything: list[Change] = [drop(each) for each in book.job.each() if each.kind != "job"]
    refused(book, everything, Held, why="it was all a mistake", says="stays")
    assert standing(book.job).stage == "Drywall"


def _goes_only_for_a_reason(book: Book, change: Sequence[Change], key: str) -> None:
    for why in ("", "  ", "x", "ok", "\u200b"):
        refused(book, change, NeedsReason, why=why, says=key)
    stage = standing(book.job).stage
    book.act("Take off", change, "the owner gave it up")
    for job in (book.job, reopen(book.path).job):
        off = {each.tag: (each.by, each.reason) for each in taken_off(job)}
        assert off[key] == ("Ann", "the owner gave it up")
        assert key in {each["tag"] for each in status(job)["removed"]}
        assert standing(job).stage == stage


def test_a_list_that_takes_items_off_is_read_only_for_a_reason(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "wall.json"
    covered(path).close()
    (tmp_path / "list.csv").write_text("tag,type,in_wall\nK1,cat6,no\n")
    words = ["import", "cable", str(path), str(tmp_path / "list.csv")]
    before = path.read_bytes()
    for more in ([], ["--reason", ""], ["--reason", "ok"]):
        assert main([*words, *more]) == 3
        said = capsys.readouterr().err
        assert "K1/tested" in said
        assert "--reason TEXT" in said
        assert path.read_bytes() == before
    assert main([*words, "--dry-run"]) == 0
    assert path.read_bytes() == before
    assert main([*words, "--reason", "it runs in the cabinet"]) == 0
    assert {each.reason for each in taken_off(reopen(path).job)} == {"it runs in the cabinet"}
    capsys.readouterr()
    assert main(["status", str(path), "--all"]) == 0
    day = r"[A-Z][a-z]{2} \d{1,2}, \d{4}"
    assert re.search(rf"K1/tested Tested, K1 cat6 \(by .+, {day}: it runs in the cabinet\)", capsys.readouterr().out)
