"""What was changed outside of the program put back as the history has it: tried on a copy first, all or nothing."""

from __future__ import annotations

from pathlib import Path

from store.book.book import Book
from store.book.errors import Busy, Damaged
from store.book.ground import disk
from store.book.restore import newest_good
from store.book.taken import DOUBTED
from store.measure.errors import StudbookError
from store.records.whole import KINDS, Job, references


def put_back(book: Book) -> list[str]:
    """Put back all that was changed outside; a line for each record, none where there is nothing to do.

    Raises Damaged, and leaves the job as it was, where the history cannot tell what was there, or where what came of it
    would be worse than what is there.
    """
    book.audit(inside=True)
    if wrong := _untold(book):
        raise Damaged(book.path, f"can't restore what was changed outside: {wrong}", _instead(book))
    outside = [each for each in book.job.outside if each.kind in KINDS]
    if not outside:
        return []
    _try_on_a_copy(book)
    book.mend_all(outside)
    return [f"Restored {each.kind} {each.tag}, which {each.became}" for each in outside]


def _untold(book: Book) -> str:
    """Why the history cannot tell what was there; empty when it can."""
    broken = next((each.tag for each in book.job.outside if each.kind == "history"), "")
    if broken:
        return broken
    return "" if book.told("job", "job") else "the history has no entry for the start of the job"


def _instead(book: Book) -> str:
    good = newest_good(book.path)
    if good is None:
        return "None of the copies beside it opens."
    return f"`studbook verify {book.path.name} --restore {good.name}` brings the newest copy that opens back."


def _try_on_a_copy(book: Book) -> None:
    import tempfile  # only this needs it

    try:
        with tempfile.TemporaryDirectory(prefix="studbook-", ignore_cleanup_errors=True) as folder:
            path = Path(folder) / "trying.json"
            path.write_bytes(disk.read_plain(book.path))
            wrong = _tried(book, path)
    except OSError as error:
        words = f"it can't be tried on a copy first: {error.strerror}. Nothing was changed."
        raise Busy(f"{book.path}: {words}") from error
    if wrong:
        raise Damaged(book.path, f"restoring would make it worse: {wrong}", _instead(book))


def _tried(book: Book, path: Path) -> str:
    """Put back in a copy; what is worse then."""
    trying = Book.open(path, book.who)
    try:
        trying.mend_all([each for each in trying.job.outside if each.kind in KINDS])
        after = Book.peek(path)
        after.audit(inside=True)
        after.close()
        return _worse(book.job, after.job)
    except StudbookError as error:
        raise Damaged(book.path, f"restoring does not work on a copy: {error}", _instead(book)) from error
    finally:
        trying.close()


def _worse(before: Job, after: Job) -> str:
    if left := [each for each in after.outside if each.kind in KINDS and each.what != DOUBTED]:
        return f"{left[0].tag} would still not match the history"
    was = set(_to_nothing(before))
    new = [each for each in _to_nothing(after) if each not in was]
    return f"{new[0]} would link to something that is not there" if new else ""


def _to_nothing(job: Job) -> list[str]:
    return [f"{each.tag} {key}" for each in job.each() for key, tag, _ in references(each) if job.get(tag) is None]
