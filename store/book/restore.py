"""After damage: which of the copies beside a file still open, and bringing one back without overwriting anything."""

from __future__ import annotations

import contextlib
import os
from pathlib import Path

import msgspec

from store.book.book import Book
from store.book.copies import Copy, copies_of, link, look_at, seen_of
from store.book.errors import Busy, Damaged, NoFile
from store.book.file import DurableFile
from store.book.ground import disk
from store.book.ground.owner import give, manners_for, manners_of


class Restored(msgspec.Struct, frozen=True):
    """What a restoring did."""

    copy: Copy
    to: Path
    kept: Path | None
    """Where the file that was there before is kept; None where there was none."""


def opens(path: Path) -> bool:
    """True for a file that is a whole job, be it of an older form. Only looked at."""
    try:
        Book.peek(path).close()
    except (Damaged, Busy, NoFile):
        return False
    return True


def newest_good(path: Path) -> Path | None:
    """The copy kept beside a file with the newest history that opens whole; None when there is none."""
    return next((copy for copy in copies_of(path) if opens(copy)), None)


def named_copy(path: Path, name: str) -> Path:
    """The copy that is meant: a path, a name beside the file, or the short form `copy2`. Raises NoFile."""
    real = Path(os.path.realpath(path))
    for each in (Path(name), real.parent / name, Path(f"{real.parent}/.{real.name}.{name}")):
        with contextlib.suppress(OSError):
            if disk.plain(each) is not None:
                return each
    there = ", ".join(each.path.name for each in seen_of(real))
    raise NoFile(f"{name}: there is no such copy. {f'Copies kept: {there}.' if there else 'No copies are kept.'}")


def restore(path: Path, name: str, to: Path | None = None, *, force: bool = False, who: str = "") -> Restored:
    """Bring a copy back as the job at `path`, or as `to`, which must not be there yet.

    What lies at `path` is kept under a name of its own. Raises Busy where it is a job that opens and that holds as many
    actions as the copy or more, unless `force`; Damaged where the copy does not open.
    """
    copy = named_copy(path, name)
    Book.peek(copy).close()
    seen = look_at(copy)
    try:
        raw = disk.read_plain(copy)
    except OSError as error:
        raise Busy(f"{copy}: cannot be read: {error.strerror}. Nothing was changed.") from error
    target = DurableFile(to or path, who)
    try:
        if to is not None:
            target.refuse_side_name()
        return _in_place(target, seen, raw, to, force)
    except OSError as error:
        raise Busy(f"{target.path}: cannot be written: {error.strerror}. Nothing was changed.") from error
    finally:
        target.close()


def _in_place(target: DurableFile, seen: Copy, raw: bytes, to: Path | None, force: bool) -> Restored:
    with target.locked():
        there = disk.seen(target.path) is not None
        if there and to is not None:
            raise Busy(f"{to}: this file exists. Nothing was changed. Choose another name.")
        if there and not force and opens(target.path) and (now := look_at(target.path)).actions >= seen.actions:
            count = f"{now.actions} action{'' if now.actions == 1 else 's'}"
            raise Busy(
                f"{target.path}: it opens, and has {count}; the copy has {seen.actions}. Nothing was "
                "changed. Give another file with --to, or use --force."
            )
        kept = _kept(target.path) if there else None
        _put(raw, target.path)
    return Restored(seen, target.path, kept)


def _kept(path: Path) -> Path:
    """Keep what is there under the next free name."""
    if disk.plain(path) is None:
        raise Busy(f"{path}: it is not a file. Nothing was changed. Give another file with --to.")
    number, kept = 1, path.with_name(f"{path.name}.before-restore")
    while disk.seen(kept) is not None:
        number += 1
        kept = path.with_name(f"{path.name}.before-restore-{number}")
    link(path, str(kept))
    return kept


def _put(raw: bytes, path: Path) -> None:
    temp = path.with_name(f".{path.name}.saving")
    try:
        manners = manners_of(path) if disk.seen(path) is not None else manners_for(path.parent)
        disk.remove(temp)
        fd = disk.open_new(temp, 0o660 if manners.inherits else 0o600)
        try:
            give(fd, manners)
            disk.write_all(fd, raw)
        finally:
            disk.let_go(fd)
        temp.replace(path)
    except OSError:
        with contextlib.suppress(OSError):
            disk.remove(temp)
        raise
    try:
        disk.sync_folder(path.parent)
    except OSError as error:
        raise Busy(f"{path}: restored, but the disk did not confirm it ({error.strerror}).") from error
