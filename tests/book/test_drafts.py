"""A half-filled form is kept beside the job, its owner's alone, and offered once its program is gone."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import msgspec

from store.book import drafts
from store.book.drafts import EDIT, NEW, Draft
from tests.book.build import make, names_in

DRAFT = Draft("New trade contact", "contact", NEW, "", {"name": "", "trade": ""}, {"name": "Half", "trade": ""})


def _of(path: Path, **given: object) -> None:
    """Say of a draft that another program wrote it."""
    draft = msgspec.json.decode(path.read_bytes(), type=Draft)
    path.write_bytes(msgspec.json.encode(msgspec.structs.replace(draft, **given)))


def test_a_draft_is_offered_when_its_program_is_gone(tmp_path: Path) -> None:
    job = make(tmp_path / "wall.json").path
    drafts.keep(job, "0a0b", DRAFT)
    path = drafts.path_of(job, "0a0b")
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert drafts.left(job) == []  # this one is still typing it
    child = os.fork()
    if child == 0:
        os._exit(0)
    os.waitpid(child, 0)
    _of(path, process=child)
    (kept,) = drafts.left(job)
    assert kept.draft.typed == {"name": "Half"}
    assert kept.draft.at.endswith("Z")
    drafts.drop(path)
    assert drafts.left(job) == []
    assert [each for each in names_in(tmp_path) if "draft" in each] == []


def test_what_somebody_else_planted_is_no_draft(tmp_path: Path) -> None:
    job = make(tmp_path / "wall.json").path
    trap = tmp_path / "trap"
    trap.write_bytes(msgspec.json.encode(DRAFT))
    drafts.path_of(job, "01").symlink_to(trap)
    os.mkfifo(drafts.path_of(job, "02"))
    drafts.path_of(job, "03").write_text("[" * 100_000)
    drafts.path_of(job, "04").mkdir()
    drafts.path_of(job, "05").write_bytes(b'{"title": 1}')
    with drafts.path_of(job, "06").open("wb") as big:
        big.truncate(drafts.MOST_BYTES + 1)
    if os.geteuid() == 0:
        drafts.path_of(job, "07").write_bytes(msgspec.json.encode(DRAFT))
        os.chown(drafts.path_of(job, "07"), 65534, -1)
    assert drafts.left(job) == []
    # And where a draft is kept, a link that waits there is not written through.
    drafts.path_of(job, "08").symlink_to(trap)
    Path(f"{drafts.path_of(job, '08')}.new").symlink_to(trap)
    drafts.keep(job, "08", DRAFT)
    assert trap.read_bytes() == msgspec.json.encode(DRAFT)
    assert not drafts.path_of(job, "08").is_symlink()


def test_only_what_was_typed_counts() -> None:
    """What stood in the other fields may be someone else's by the time the form is opened again."""
    draft = Draft("W1", "wall", EDIT, "W1", {"name": "North", "notes": "old"}, {"name": "North", "notes": "new"})
    assert draft.typed == {"notes": "new"}
