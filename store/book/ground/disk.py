"""What the book asks of a disk, on each system in the way that it has there.

Nothing here needs what only some systems have: a flag, a call or a folder's fsync that is not there is left out, and
what it guards against is then guarded against by the names alone.
"""

from __future__ import annotations

import contextlib
import errno
import os
import stat
from pathlib import Path

MOST_BYTES = 1 << 30
"""A job file is never as large as that; reading one that is would take all the memory there is."""
CHUNK = 1 << 26
KEEPS_OPEN = os.name != "nt"
"""True where a file may be replaced while it is open. Elsewhere it is closed first."""

_PLAIN = getattr(os, "O_CLOEXEC", 0) | getattr(os, "O_BINARY", 0)
_NO_LINK = getattr(os, "O_NOFOLLOW", 0)
_NO_WAIT = getattr(os, "O_NONBLOCK", 0)  # or a named pipe would be waited for

CANNOT_SYNC = (errno.EINVAL, errno.ENOTSUP, errno.EACCES, errno.EBADF, errno.EPERM)
"""A folder that cannot be synced, or not be listed."""


class NotAFile(OSError):
    """There is something of that name that is no plain file: a folder, a pipe, a device or a link."""


def open_to_read(path: Path | str) -> int:
    """Open a plain file, and only that: a link is not followed, a pipe not waited for. Raises OSError."""
    try:
        fd = os.open(path, os.O_RDONLY | _PLAIN | _NO_LINK | _NO_WAIT)
    except OSError as error:
        if error.errno == errno.ELOOP:
            raise NotAFile(errno.ELOOP, "it is a link now") from error
        if os.path.isdir(path):  # noqa: PTH112 - some systems cannot open a folder at all
            raise NotAFile(errno.EISDIR, "it is not a file") from error
        raise
    if not stat.S_ISREG(os.fstat(fd).st_mode):
        let_go(fd)
        raise NotAFile(errno.EINVAL, "it is not a file")
    return fd


def open_new(path: Path | str, mode: int) -> int:
    """Make a file that was not there, and open it to read and write; nothing that is there is followed or reused."""
    return os.open(path, os.O_RDWR | os.O_CREAT | os.O_EXCL | _PLAIN | _NO_LINK, mode)


def open_lock(path: Path | str, mode: int) -> int:
    """Open a lock file, or make it. Raises OSError; NotAFile when something else has its name."""
    how = os.O_RDWR | _PLAIN | _NO_LINK | _NO_WAIT
    try:
        # Not both at once: in a folder that many may write to, some systems keep everybody from opening another's file
        # with the wish to make it.
        try:
            fd = os.open(path, how)
        except FileNotFoundError:
            try:
                fd = os.open(path, how | os.O_CREAT | os.O_EXCL, mode)
            except FileExistsError:  # someone was quicker
                fd = os.open(path, how)
    except OSError as error:
        if error.errno in (errno.ELOOP, errno.EISDIR, errno.ENXIO) or os.path.isdir(path):  # noqa: PTH112
            raise NotAFile(error.errno, "it is not a file that this program made") from error
        raise
    if not stat.S_ISREG(os.fstat(fd).st_mode):
        let_go(fd)
        raise NotAFile(errno.EINVAL, "it is not a file that this program made")
    return fd


def read_all(fd: int, most: int = MOST_BYTES) -> bytes:
    """All bytes of an open file. Raises OSError; EFBIG for one that is too large."""
    if os.fstat(fd).st_size > most:
        raise OSError(errno.EFBIG, f"it has more than {most:,} bytes")
    parts, left = [], most + 1
    while left > 0 and (part := os.read(fd, min(left, CHUNK))):
        parts.append(part)
        left -= len(part)
    if left <= 0:
        raise OSError(errno.EFBIG, f"it has more than {most:,} bytes")
    return parts[0] if len(parts) == 1 else b"".join(parts)


def read_plain(path: Path | str, most: int = MOST_BYTES) -> bytes:
    """All bytes of a plain file that is no link. Raises OSError."""
    fd = open_to_read(path)
    try:
        return read_all(fd, most)
    finally:
        let_go(fd)


def read_given(path: Path, most: int) -> bytes:
    """All bytes of a file that a person named: a plain one, also through a link, or what comes in by a pipe of ours.

    A pipe of its own name could be waited for without end, and a device read without end. Raises OSError.
    """
    fd = open_given(path)
    try:
        return read_all(fd, most)
    finally:
        let_go(fd)


def open_given(path: Path | str) -> int:
    """Open such a file to read. Raises OSError."""
    real = os.path.realpath(path)
    ours = real.startswith(("/proc/", "/dev/fd/")) and not real.startswith("/proc/sys")
    fd = os.open(path, os.O_RDONLY | _PLAIN | (0 if ours else _NO_WAIT))
    kind = os.fstat(fd).st_mode
    if not stat.S_ISREG(kind) and not (ours and (stat.S_ISFIFO(kind) or stat.S_ISSOCK(kind))):
        let_go(fd)
        raise NotAFile(errno.EINVAL, "it is not a file")
    return fd


def let_go(fd: int) -> None:
    """Close a file that was only read, or whose bytes the disk has confirmed: that this fails takes nothing away."""
    with contextlib.suppress(OSError):
        os.close(fd)


def write_all(fd: int, raw: bytes) -> None:
    """Write all bytes, and have the disk say that it has them. Raises OSError."""
    view = memoryview(raw)
    while view:
        view = view[os.write(fd, view) :]
    os.fsync(fd)


def sync_folder(folder: Path) -> None:
    """Make the names in a folder durable, where the system does that at all. Raises OSError."""
    directory = getattr(os, "O_DIRECTORY", None)
    if directory is None:
        return
    try:
        fd = os.open(folder, os.O_RDONLY | directory | _PLAIN)
        try:
            os.fsync(fd)
        finally:
            let_go(fd)
    except OSError as error:
        if error.errno not in CANNOT_SYNC:
            raise


def remove(path: Path | str) -> None:
    """Take a name away if it is there; a link itself, never what it leads to. Raises OSError."""
    with contextlib.suppress(FileNotFoundError):
        os.unlink(path)  # noqa: PTH108 - also given as text


def seen(path: Path | str) -> os.stat_result | None:
    """What is known of whatever has a name, be it a link; None when nothing has it. Raises OSError.

    That something cannot be seen is not that it is not there: what took it so would be written over.
    """
    try:
        return os.lstat(path)
    except (FileNotFoundError, NotADirectoryError):
        return None


def plain(path: Path | str) -> os.stat_result | None:
    """The same for a plain file that is no link. Raises OSError."""
    found = seen(path)
    return found if found is not None and stat.S_ISREG(found.st_mode) else None
