"""The durable file under a job: read whole, written whole or not at all, by one writer at a time.

A save is: lock on a side file, re-read if someone else wrote, write a temporary file, fsync, replace, fsync of
the folder. A reader at any instant sees the whole old file or the whole new one. The file that was replaced is
kept as a copy (a hard link, so it costs nothing), a few of them spread over time.
"""

from __future__ import annotations

import contextlib
import errno
import os
import stat
import time
from collections.abc import Iterator
from pathlib import Path

import msgspec

from store.book.copies import keep_copies, seen_of
from store.book.decoding import Tables, check_beginning, decode, decode_raw
from store.book.encoding import Encoding
from store.book.errors import Busy, Damaged, NoFile, as_typed
from store.book.ground import disk
from store.book.ground import lock as lock_file
from store.book.ground.lock import holder, sign, taken
from store.book.ground.own_folder import own_number
from store.book.ground.owner import Manners, give, manners_for, manners_of, may_write, told, whose
from store.book.written import is_side_name

LONGEST_NAME = 235
"""Bytes of a name: those of its lock, its copies and its drafts are some letters longer, and 255 is the most."""
TELL_AFTER_S = 0.4
"""Waiting for someone else's save is shown after so long."""
PATIENCE_S = 5.0


class DurableFile:
    """One job file. `read` gives its tables; `locked` and `commit` change them."""

    def __init__(self, path: Path, who: str = "") -> None:
        # A symlink is followed once, here: replacing it later would cut it off from what it points to.
        try:
            self.path = Path(os.path.realpath(path))
        except FileNotFoundError as error:
            raise NoFile(f"{path}: the current folder no longer exists. Give the full path.") from error
        self.who = who
        self.patience_s = PATIENCE_S
        self._temp = self.path.with_name(f".{self.path.name}.saving")
        self._lock = self.path.with_name(f".{self.path.name}.lock")
        self._fd: int | None = None
        self._sign: tuple[int, ...] | None = None
        self._tables: Tables | None = {}
        self._raw = b""
        """The bytes of the version read last, while its tables are not decoded yet."""
        self._locked: int | None = None
        self._encoding = Encoding()
        self._copy_due = 0.0
        """When another spaced copy is due, seconds of the clock."""

    # --- reading ---

    def changed(self) -> bool:
        """True when the file on disk is not the one last read or written here."""
        try:
            return _sign(os.lstat(self.path)) != self._sign
        except FileNotFoundError:
            return True
        except OSError as error:
            raise self._unread(error) from error

    def read(self) -> Tables:
        """The tables of the newest version. Raises NoFile, Damaged or Busy."""
        if self.changed():
            self._load()
        if self._tables is None:
            try:
                self._tables, self._raw = decode(self.path, self._raw), b""
            except Damaged:
                self.distrust()  # or the next look would take it for read
                raise
        return self._tables

    def saved(self) -> Tables:
        """The tables just committed: what was saved is known, whatever the disk says when it is looked at again."""
        return self._tables if self._tables is not None else self.read()

    def glance(self) -> dict[str, msgspec.Raw]:
        """The tables of the newest version, each still to be decoded with `decode_table`. Raises as `read`."""
        self._load()
        return decode_raw(self.path, self._raw)

    def distrust(self) -> None:
        """Forget which version was read, so that the next look reads the file again."""
        self._sign = None

    def _load(self) -> None:
        try:
            fd = disk.open_to_read(self.path)
        except FileNotFoundError as error:
            raise NoFile(f"{self.path}: no such file. {_what_there_is(self.path)}") from error
        except disk.NotAFile as error:
            if error.errno == errno.ELOOP:
                words = "a link was put in its place, or the link goes in a circle. Nothing was changed."
                raise Busy(f"{self.path}: {words}") from error
            raise Damaged(self.path, str(error.strerror), "Give the path of the job file.") from error
        except OSError as error:
            raise self._unread(error) from error
        try:
            sign = _sign(os.fstat(fd))
            raw = disk.read_all(fd)
            check_beginning(self.path, raw)
        except OSError as error:
            disk.let_go(fd)
            raise self._unread(error) from error
        except BaseException:
            disk.let_go(fd)
            raise
        self._keep(fd, sign, None)
        self._raw = raw

    def _unread(self, error: OSError) -> Busy:
        self.distrust()
        return Busy(f"{self.path}: can't read it: {told(error.strerror, self.path)}. Nothing was changed.")

    def _keep(self, fd: int, sign: tuple[int, ...] | None, tables: Tables | None) -> None:
        """Remember a version; its descriptor stays open so that its inode number cannot be given again."""
        old, self._fd = self._fd, None
        if disk.KEEPS_OPEN and fd >= 0:
            self._fd = fd
        elif fd >= 0:
            disk.let_go(fd)
        if old is not None:
            disk.let_go(old)
        self._sign, self._tables = sign, tables

    # --- writing ---

    @contextlib.contextmanager
    def locked(self, patience_s: float | None = None) -> Iterator[None]:
        """Hold the lock of this file. Raises Busy when another copy holds it for too long."""
        if len(os.fsencode(self.path.name)) > LONGEST_NAME:
            raise Busy(
                f"{self.path}: the name is too long (at most {LONGEST_NAME} bytes, so that its copies can have "
                "names too). Nothing was changed."
            )
        try:
            lock = self._take_lock(self.patience_s if patience_s is None else patience_s)
        except disk.NotAFile as error:
            raise Busy(
                f"{self.path}: can't save: {told(f'{self._lock.name} beside it is not a lock', self._lock)}. "
                "Nothing was changed. Delete it, then try again."
            ) from error
        except OSError as error:
            at = self._lock if os.path.lexists(self._lock) else self.path.parent
            reason = told(error.strerror, at)
            raise Busy(f"{at}: can't write there: {reason}. Nothing was changed.") from error
        self._locked = lock
        try:
            yield
        finally:
            self._locked = None
            disk.let_go(lock)

    def _take_lock(self, patience_s: float) -> int:
        end = time.monotonic() + patience_s
        while True:
            lock = self._open_lock()
            try:
                left = end - time.monotonic()
                if not taken(lock, min(TELL_AFTER_S, left)):
                    lock_file.tell(f"Waiting for {self.path.name}: {self._held_by(lock)}.")
                    if not taken(lock, end - time.monotonic()):
                        raise Busy(f"{self.path}: {self._held_by(lock)}. Nothing was changed. Try again.")
                if self._holds(lock):
                    sign(lock, self.who or "somebody")
                    return lock
            except BaseException:
                disk.let_go(lock)
                raise
            disk.let_go(lock)

    def _open_lock(self) -> int:
        lock = disk.open_lock(self._lock, 0o600)
        try:
            # One that an earlier version made for its owner alone would keep everybody else of a shared folder out.
            if os.fstat(lock).st_uid == own_number():
                give(lock, manners_for(self.path.parent))
        except OSError:
            pass  # it locks all the same
        return lock

    def _held_by(self, lock: int) -> str:
        """Who is saving, as far as that can be told."""
        by = holder(lock)
        if by:
            return f"another copy of Studbook is saving ({by})"
        owner = whose(self._lock)
        return f"another program holds its lock {self._lock.name}{f' ({owner})' if owner else ''}"

    def _holds(self, lock: int) -> bool:
        """True when the lock file on disk is still the one that is locked."""
        try:
            return os.path.samestat(os.fstat(lock), os.lstat(self._lock))
        except FileNotFoundError:
            return False

    def commit(self, tables: Tables) -> None:
        """Write the tables durably, inside `locked`. Raises Busy; on any failure the file stays as it was."""
        if self._locked is None:
            raise RuntimeError("commit outside of the lock")
        raw = self._encoding.bytes_of(tables)
        try:
            self._replace(raw, tables)
        except OSError as error:
            with contextlib.suppress(OSError):
                disk.remove(self._temp)
            reason = told(error.strerror or str(error), self.path)
            raise Busy(f"{self.path}: can't save: {reason}. The file is as it was.") from error

    def _manners(self) -> Manners:
        """What the new file must be like: as the old one, or as the folder has it. Raises Busy where it is not ours."""
        try:
            found = manners_of(self.path)
        except FileNotFoundError:
            return manners_for(self.path.parent)
        if not may_write(self.path):
            owner = told("you can read it but not change it", self.path)
            raise Busy(f"{self.path}: can't save: {owner}. Nothing was changed.")
        return found

    def _replace(self, raw: bytes, tables: Tables) -> None:
        manners = self._manners()
        # A stale temporary file, left by a kill, is removed rather than reused: it could be a link.
        disk.remove(self._temp)
        fd = disk.open_new(self._temp, 0o660 if manners.inherits else 0o600)
        try:
            give(fd, manners)
            disk.write_all(fd, raw)
            if self._locked is None or not self._holds(self._locked):
                raise Busy(f"{self.path}: someone deleted the lock file while saving. Nothing was changed. Try again.")
            if disk.plain(self.path) is not None:
                self._copy_due = keep_copies(self.path, time.time(), self._copy_due)
            elif disk.seen(self.path) is not None:
                raise Busy(f"{self.path}: can't save: it is no longer a file. Nothing was changed.")
            if not disk.KEEPS_OPEN:
                fd = self._let_go(fd)
            self._temp.replace(self.path)
        except BaseException:
            self._let_go(fd, keep=self._fd)
            with contextlib.suppress(OSError):
                disk.remove(self._temp)
            raise
        # It is saved now: what goes wrong from here on must not say otherwise.
        self._keep(fd, _sign_of(fd, self.path), tables)
        self._settle_folder()

    def _let_go(self, fd: int, keep: int | None = None) -> int:
        """Close a file on its way, and the version in hand unless it is kept; gives what stands for no file."""
        if self._fd is not None and keep is None:
            disk.let_go(self._fd)
            self._fd = None
        if fd >= 0:
            disk.let_go(fd)
        return -1

    def _settle_folder(self) -> None:
        """Make the new name durable. The file is in place already, so a failure here must not say otherwise."""
        try:
            disk.sync_folder(self.path.parent)
        except OSError as error:
            self.distrust()
            raise Busy(
                f"{self.path}: saved, but the disk did not confirm it ({error.strerror}). If power fails now, "
                "the version before it can come back. Check the disk."
            ) from error

    def create(self, tables: Tables) -> None:
        """Write a new file, its owner's alone unless the folder is shared. Raises Busy when the path exists already, or
        when copies of a job of that name lie there: the new job's copies would take their place."""
        self.refuse_side_name()
        with self.locked():
            if self._is_there():
                raise Busy(f"{self.path}: this file exists. Choose another name. Nothing was changed.")
            if seen_of(self.path):
                raise Busy(
                    f"{self.path}: copies of a job with that name are beside it. {_what_there_is(self.path)} Or choose "
                    "another name. Nothing was changed."
                )
            self.commit(tables)

    def refuse_side_name(self) -> None:
        """Raise Busy for a name that belongs to the files beside another job."""
        if is_side_name(self.path.name):
            raise Busy(
                f"{self.path}: that name is kept for a job's own files. Choose another name. Nothing was changed."
            )

    def _is_there(self) -> bool:
        try:
            return disk.seen(self.path) is not None
        except OSError as error:
            raise self._unread(error) from error

    def write_again(self) -> None:
        """Write the version read last once more, where the file is gone. Raises Busy where there is one again."""
        tables = self._tables
        if tables is None:
            tables = decode(self.path, self._raw)
        with self.locked():
            if self._is_there():
                raise Busy(f"{self.path}: the file exists again. Nothing was changed.")
            self.commit(tables)

    def close(self) -> None:
        """Let go of the file."""
        if self._fd is not None:
            disk.let_go(self._fd)
        self._fd, self._sign = None, None


def _what_there_is(path: Path) -> str:
    """What can be done where there is no file: the copies of it, or a new one."""
    found = [each for each in seen_of(path) if not each.wrong]
    if not found:
        if not path.parent.is_dir():
            return f"There is no folder {path.parent} either."
        return f"Make one: `studbook new {as_typed(path)}`."
    more = f" {len(found) - 1} older too." if len(found) > 1 else ""
    return (
        f"The newest copy is {found[0].says}.{more} To restore it: `studbook verify {as_typed(path)} --restore "
        f"{found[0].path.name}`."
    )


def _sign_of(fd: int, path: Path) -> tuple[int, ...] | None:
    """What tells the version just saved; None where that cannot be seen, and then the next look reads it again."""
    try:
        return _sign(os.fstat(fd) if fd >= 0 else os.lstat(path))
    except OSError:
        return None


def _sign(found: os.stat_result) -> tuple[int, ...]:
    return (found.st_dev, found.st_ino, found.st_size, found.st_mtime_ns, stat.S_IFMT(found.st_mode))
