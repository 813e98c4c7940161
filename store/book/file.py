"""The durable file under a job: read whole, written whole or not at all, by one writer at a time.

A save is: lock on a side file, re-read if somebody else wrote, write a temporary file, fsync, replace, fsync of
the folder. A reader at any instant sees the whole old file or the whole new one. The file that was replaced is
kept as a copy (a hard link, so it costs nothing), a few of them spread over time.
"""

from __future__ import annotations

import contextlib
import errno
import gc
import os
import stat
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any, TypeVar

import msgspec

from store.book.encoding import Encoding
from store.book.errors import Busy, Damaged, NoFile
from store.book.lock import taken

Tables = dict[str, dict[str, Any]]
COPIES = 6
"""How many good copies are kept beside the file."""
COPY_EVERY_S = 600.0
"""The newest spaced copy is at least this old before another is kept; `.copy0` is always the save before."""

T = TypeVar("T")
_decoder = msgspec.json.Decoder(dict[str, dict[str, dict[str, Any]]])
_raw_decoder = msgspec.json.Decoder(dict[str, msgspec.Raw])
_table_decoder = msgspec.json.Decoder(dict[str, dict[str, Any]])


class DurableFile:
    """One job file. `read` gives its tables; `locked` and `commit` change them."""

    def __init__(self, path: Path) -> None:
        # A symlink is followed once, here: replacing it later would cut it off from what it points to.
        try:
            self.path = Path(os.path.realpath(path))
        except FileNotFoundError as error:
            raise NoFile(f"{path}: the folder you are in is no more. Name the file from the root on.") from error
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
            return _sign(self.path.stat()) != self._sign
        except FileNotFoundError:
            return True
        except OSError as error:
            raise Busy(f"{self.path}: {error.strerror}") from error

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

    def glance(self) -> dict[str, msgspec.Raw]:
        """The tables of the newest version, each still to be decoded with `decode_table`. Raises as `read`."""
        self._load()
        return _decoded(self.path, self._raw, _raw_decoder)

    def distrust(self) -> None:
        """Forget which version was read, so that the next look reads the file again."""
        self._sign = None

    def _load(self) -> None:
        try:
            # Without O_NONBLOCK a named pipe would be waited for.
            fd = os.open(self.path, os.O_RDONLY | os.O_CLOEXEC | os.O_NONBLOCK)
        except FileNotFoundError as error:
            raise NoFile(f"{self.path}: there is no such file. `studbook new {self.path.name}` makes one.") from error
        except OSError as error:
            raise Busy(f"{self.path}: cannot be read: {error.strerror}") from error
        try:
            if not stat.S_ISREG(os.fstat(fd).st_mode):
                raise Damaged(self.path, "it is not a file", "Name the job's file.")
            sign = _sign(os.fstat(fd))
            raw = _read_all(fd)
            _check_beginning(self.path, raw)
        except BaseException:
            os.close(fd)
            raise
        self._keep(fd, sign, None)
        self._raw = raw

    def _keep(self, fd: int, sign: tuple[int, ...], tables: Tables | None) -> None:
        """Remember a version; its descriptor stays open so that its inode number cannot be given again."""
        if self._fd is not None:
            os.close(self._fd)
        self._fd, self._sign, self._tables = fd, sign, tables

    # --- writing ---

    @contextlib.contextmanager
    def locked(self, patience_s: float = 5.0) -> Iterator[None]:
        """Hold the lock of this file. Raises Busy when another copy holds it for too long."""
        try:
            lock = self._take_lock(patience_s)
        except OSError as error:
            raise Busy(f"{self.path.parent}: cannot be written to: {error.strerror}. Nothing was changed.") from error
        self._locked = lock
        try:
            yield
        finally:
            self._locked = None
            os.close(lock)

    def _take_lock(self, patience_s: float) -> int:
        end = time.monotonic() + patience_s
        while True:
            lock = os.open(self._lock, os.O_RDWR | os.O_CREAT | os.O_CLOEXEC | os.O_NOFOLLOW, 0o600)
            try:
                if not taken(lock, end - time.monotonic()):
                    raise Busy(f"{self.path}: another copy of the program is saving. Nothing was changed.")
                if self._holds(lock):
                    return lock
            except BaseException:
                os.close(lock)
                raise
            os.close(lock)

    def _holds(self, lock: int) -> bool:
        """True when the lock file on disk is still the one that is locked."""
        try:
            return os.path.samestat(os.fstat(lock), self._lock.stat())
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
                self._temp.unlink()
            raise Busy(f"{self.path}: cannot be saved: {error.strerror}. The file is as it was before.") from error

    def _replace(self, raw: bytes, tables: Tables) -> None:
        mode = stat.S_IMODE(os.fstat(self._fd).st_mode) if self._fd is not None else 0o600
        # A stale temporary file, left by a kill, is removed rather than reused: it could be a link.
        with contextlib.suppress(FileNotFoundError):
            self._temp.unlink()
        fd = os.open(self._temp, os.O_RDWR | os.O_CREAT | os.O_EXCL | os.O_CLOEXEC | os.O_NOFOLLOW, mode)
        try:
            os.fchmod(fd, mode)  # whatever the umask took away
            view = memoryview(raw)
            while view:
                view = view[os.write(fd, view) :]
            os.fsync(fd)
            if self._locked is None or not self._holds(self._locked):
                raise Busy(f"{self.path}: the lock file was taken away while saving. Nothing was changed; try again.")
            if self._fd is not None:
                self._copy_due = keep_copies(self.path, time.time(), self._copy_due)
            self._temp.replace(self.path)
        except BaseException:
            os.close(fd)
            with contextlib.suppress(OSError):
                self._temp.unlink()
            raise
        self._keep(fd, _sign(os.fstat(fd)), tables)
        self._settle_folder()

    def _settle_folder(self) -> None:
        """Make the new name durable. The file is in place already, so a failure here must not say otherwise."""
        try:
            folder = os.open(self.path.parent, os.O_RDONLY | os.O_DIRECTORY | os.O_CLOEXEC)
            try:
                os.fsync(folder)
            finally:
                os.close(folder)
        except OSError as error:
            if error.errno in (errno.EINVAL, errno.ENOTSUP, errno.EACCES):
                return  # a folder that cannot be synced, or not be listed
            self.distrust()
            raise Busy(
                f"{self.path}: it was saved, but the disk did not confirm it ({error.strerror}): "
                "a loss of power now could bring the version before it back. Check the disk."
            ) from error

    def create(self, tables: Tables) -> None:
        """Write a new file, mode 0600. Raises Busy when the path exists already."""
        with self.locked():
            if self.path.exists():
                raise Busy(f"{self.path}: there is a file already. Choose another name; nothing was changed.")
            self.commit(tables)

    def close(self) -> None:
        """Let go of the file."""
        if self._fd is not None:
            os.close(self._fd)
        self._fd, self._sign = None, None


def decode(path: Path, raw: bytes) -> Tables:
    """The tables of the bytes of a file. Raises Damaged with the place."""
    _check_beginning(path, raw)
    return _decoded(path, raw, _decoder)


def decode_table(path: Path, raw: msgspec.Raw) -> dict[str, Any]:
    """One table of a glance. Raises Damaged with the place."""
    return _decoded(path, raw, _table_decoder)


def _check_beginning(path: Path, raw: bytes) -> None:
    if not raw:
        raise Damaged(path, "it is empty (0 bytes); an empty file is never taken for a new job")
    if not raw.lstrip().startswith(b"{"):
        raise Damaged(path, "it is not a Studbook job (it does not begin with {)", "Name the job's own file.")


def _decoded(path: Path, raw: bytes | msgspec.Raw, decoder: msgspec.json.Decoder[T]) -> T:
    try:
        with without_collecting():
            return decoder.decode(raw)
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError) as error:
        raise Damaged(path, f"it cannot be read ({error})") from error


@contextlib.contextmanager
def without_collecting() -> Iterator[None]:
    """Many small objects are made at once here, all of them to stay: collecting between them only costs time."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()


def copies_of(path: Path) -> list[Path]:
    """The copies kept beside a file, newest first."""
    path = Path(os.path.realpath(path))
    slots = [path.with_name(f".{path.name}.copy{number}") for number in range(COPIES)]
    found = [each for each in slots if each.is_file()]
    return sorted(found, key=lambda each: each.stat().st_mtime_ns, reverse=True)


def keep_copies(path: Path, now: float, due: float) -> float:
    """Keep the file as it is now as `.copy0`, and where one is due by the clock also as one of the spaced copies.

    `now` and `due` in seconds of the clock; gives when the next spaced copy will be due.
    """
    copy = f"{path.parent}/.{path.name}.copy"
    link(path, copy + "0")
    if now < due:
        return due
    ages = [(_time_of(f"{copy}{number}"), f"{copy}{number}") for number in range(1, COPIES)]
    newest, oldest = max(ages)[0], min(ages)[1]
    if newest and now - newest <= COPY_EVERY_S:
        return newest + COPY_EVERY_S
    link(path, oldest)
    return max(_time_of(oldest), now - COPY_EVERY_S) + COPY_EVERY_S


def _time_of(path: str) -> float:
    """When a file was written, seconds of the clock; 0 when there is none."""
    try:
        return os.stat(path).st_mtime  # noqa: PTH116 - a fifth of the time, and this is in every save
    except FileNotFoundError:
        return 0.0


def link(path: Path, copy: str) -> None:
    """Keep `path` also under the name `copy`; never half of it."""
    fresh = copy + ".new"
    with contextlib.suppress(FileNotFoundError):
        os.unlink(fresh)  # noqa: PTH108
    try:
        os.link(path, fresh)
    except OSError:  # a folder without hard links
        import shutil  # heavy, and rarely needed

        try:
            shutil.copy2(path, fresh)
        except OSError:
            with contextlib.suppress(OSError):
                os.unlink(fresh)  # noqa: PTH108
            raise
    os.replace(fresh, copy)  # noqa: PTH105
    # Of two names of one file, which a save that failed leaves, the first is not taken away by that.
    with contextlib.suppress(FileNotFoundError):
        os.unlink(fresh)  # noqa: PTH108


def _read_all(fd: int) -> bytes:
    with open(fd, "rb", closefd=False) as stream:
        return stream.read()


def _sign(found: os.stat_result) -> tuple[int, ...]:
    return (found.st_dev, found.st_ino, found.st_size, found.st_mtime_ns)
