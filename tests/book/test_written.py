"""A file of a job is never written over; a sheet or list that was changed since is not, unasked."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest

from store.book.changes import add
from store.book.errors import Busy
from store.book.ground.owner import make_folder
from store.book.restore import restore
from store.book.written import Protected, protect
from templates.sheets.write import NotOurs, write_sheet
from tests.book.build import make, names_in, wall


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A job with a copy beside it."""
    path = tmp_path / "wall.json"
    book = make(path)
    book.act("Add a wall", [add(wall())])
    book.close()
    return path


def _spellings(job: Path) -> list[Path]:
    """Names that lead to the job, to its copies and to its lock."""
    folder = job.parent
    (folder / "link.csv").symlink_to(job)
    os.link(job, folder / "twin.csv")
    os.link(folder / f".{job.name}.lock", folder / "lock.csv")
    (folder / "deep").mkdir()
    (folder / "deep" / "round.csv").symlink_to("../link.csv")
    return [
        job,
        folder / "deep" / ".." / job.name,
        Path(os.path.relpath(job)),
        folder / "link.csv",
        folder / "twin.csv",
        folder / "deep" / "round.csv",
        folder / f".{job.name}.copy0",
        folder / f".{job.name}.copy5",
        folder / f".{job.name}.lock",
        folder / "lock.csv",
        folder / f".{job.name}.saving",
        folder / f".{job.name}.draft-0a1b",
    ]


def test_no_spelling_of_a_path_leads_over_the_files_of_a_job(job: Path) -> None:
    spellings = _spellings(job)
    before = {each: (job.parent / each).read_bytes() for each in names_in(job.parent) if (job.parent / each).is_file()}
    for path in spellings:
        for force in (False, True):
            with pytest.raises(Protected) as refused:
                write_sheet(path, "a,b\r\n", "csv", force=force, job=job)
            assert refused.value.exit_status == 5
    assert {each: (job.parent / each).read_bytes() for each in before} == before


def test_another_job_is_not_written_over_either(job: Path, tmp_path: Path) -> None:
    other = tmp_path / "other" / "job.json"
    other.parent.mkdir()
    make(other).close()
    moved = other.rename(other.with_name("anything.csv"))
    before = moved.read_bytes()
    for path in (moved, other.with_name(".anything.csv.lock")):
        with pytest.raises(Protected):
            write_sheet(path, "a,b\r\n", "csv", force=True, job=job)
    assert moved.read_bytes() == before
    # A damaged one neither, be it that of the job itself.
    for path in (moved, job):
        path.write_bytes(path.read_bytes()[:200])
        with pytest.raises(Protected):
            protect(path)
    job.write_bytes(b"")
    with pytest.raises(Protected):
        protect(job, job)


@pytest.mark.parametrize("form", ["csv", "ics", "html", "md", "svg"])
def test_a_file_that_was_changed_since_is_not_written_over_unasked(form: str, tmp_path: Path) -> None:
    path = tmp_path / f"list.{form}"
    write_sheet(path, "name,trade\r\nAnn,owner\r\n", form)
    write_sheet(path, "name,trade\r\nBen,owner\r\n", form)
    mine = path.read_bytes().replace(b"Ben", b"Bea")
    path.write_bytes(mine)
    with pytest.raises(NotOurs, match="changed since"):
        write_sheet(path, "name,trade\r\nCid,owner\r\n", form)
    assert path.read_bytes() == mine
    write_sheet(path, "name,trade\r\nCid,owner\r\n", form, force=True)
    assert b"Cid" in path.read_bytes()
    # What comes out the same takes nothing away.
    write_sheet(path, "name,trade\r\nCid,owner\r\n", form)


@pytest.mark.parametrize("form", ["html", "md", "svg", "txt"])
def test_a_line_put_below_the_mark_is_a_change_too(form: str, tmp_path: Path) -> None:
    path = tmp_path / f"sheet.{form}"
    write_sheet(path, "Ann\n", form)
    with path.open("a") as file:
        file.write("call her back\n")
    with pytest.raises(NotOurs, match="changed since"):
        write_sheet(path, "Ben\n", form)
    assert path.read_text().endswith("call her back\n")


@pytest.mark.parametrize("force", [False, True])
def test_what_is_no_plain_file_is_never_replaced(tmp_path: Path, *, force: bool) -> None:
    pipe, folder = tmp_path / "pipe", tmp_path / "folder"
    os.mkfifo(pipe)
    folder.mkdir()
    for path in (pipe, folder):
        with pytest.raises(NotOurs, match="not a file"):
            write_sheet(path, "a,b\r\n", "csv", force=force)
    assert pipe.is_fifo()
    assert folder.is_dir()


@pytest.mark.parametrize("name", [".wall.json.copy5", ".wall.json.saving", ".other.json.lock", ".o.json.draft-1f"])
def test_no_job_is_begun_under_a_name_of_a_jobs_own_files(name: str, job: Path) -> None:
    path, before = job.with_name(name), names_in(job.parent)
    with pytest.raises(Busy, match="own files"):
        make(path)
    with pytest.raises(Busy, match="own files"):
        restore(job, "copy0", path)
    assert names_in(job.parent) == before


@pytest.mark.skipif(os.name == "nt", reason="takes groups of a folder")
@pytest.mark.parametrize(("shared", "mode"), [(0o2775, 0o2770), (0o775, 0o770), (0o755, 0o700)])
def test_a_folder_made_in_a_shared_one_is_its_groups_too(shared: int, mode: int, tmp_path: Path) -> None:
    above = tmp_path / "above"
    above.mkdir()
    above.chmod(shared)
    old = os.umask(0o077)
    try:
        make_folder(above / "lists" / "more")
    finally:
        os.umask(old)
    for each in (above / "lists", above / "lists" / "more"):
        assert stat.S_IMODE(each.stat().st_mode) == mode
        assert each.stat().st_gid == above.stat().st_gid


def test_a_list_that_nobody_here_wrote_is_not_written_over(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "list.csv"
    write_sheet(path, "name\r\nAnn\r\n", "csv")
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "somebody else"))
    with pytest.raises(NotOurs):
        write_sheet(path, "name\r\nBen\r\n", "csv")
    assert path.read_bytes().endswith(b"name\r\nAnn\r\n")


def test_where_nothing_can_be_remembered_a_list_is_written_all_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", "/proc/nowhere")
    path = tmp_path / "list.csv"
    write_sheet(path, "name\r\nAnn\r\n", "csv")
    assert path.read_bytes().endswith(b"name\r\nAnn\r\n")


@pytest.mark.skipif(os.geteuid() != 0, reason="takes a second account: only root can be both")
def test_a_link_that_somebody_else_made_is_not_written_through(tmp_path: Path) -> None:
    link, trap = tmp_path / "list.csv", tmp_path / "trap"
    link.symlink_to(trap)
    write_sheet(link, "mine\r\n", "csv")
    trap.unlink()
    os.chown(link, 65534, 65534, follow_symlinks=False)
    for force in (False, True):
        with pytest.raises(NotOurs, match="a link that someone else made"):
            write_sheet(link, "a\r\n", "csv", force=force)
    assert not trap.exists()
