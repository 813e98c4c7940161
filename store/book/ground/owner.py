"""Whose a file is and who may read it: kept through every save, and taken from the folder where that is shared.

A save puts a new file in the place of the old one, so what the system notes of it (mode, group, owner, access list)
has to be carried over. Where a system has none of these, there is nothing to carry.
"""

from __future__ import annotations

import errno
import os
import stat
from pathlib import Path
from typing import NamedTuple

from store.book.ground.own_folder import own_number

ACL, DEFAULT_ACL = "system.posix_acl_access", "system.posix_acl_default"
"""Access lists as Linux keeps them beside a file, and those that a folder gives to new ones."""
PRIVATE, SHARED = 0o600, 0o660
NO_LIST = (errno.ENOENT, errno.ENOTSUP, errno.ENOSYS, getattr(errno, "ENODATA", -1), getattr(errno, "ENOATTR", -1))


class Manners(NamedTuple):
    """What the system notes of a file. A tuple, as a command that answers from what it kept has no need of msgspec."""

    mode: int
    user: int | None = None
    group: int | None = None
    acl: bytes | None = None
    inherits: bool = False
    """True where the folder's own access list gives new files theirs: then nothing is set."""


def manners_of(path: Path) -> Manners:
    """Those of a file that is there. Raises OSError."""
    seen = os.lstat(path)
    return Manners(stat.S_IMODE(seen.st_mode), seen.st_uid, seen.st_gid, _listed(path, ACL))


def manners_for(folder: Path) -> Manners:
    """Those of a new file in a folder: its owner's alone, unless the folder is shared.

    A folder is shared when it hands its group on (setgid), when its group may write to it, or when it has an access
    list for new files. One that anybody may write to, like that of temporary files, is not.
    """
    try:
        seen = folder.stat()
    except OSError:
        return Manners(PRIVATE)
    if _listed(folder, DEFAULT_ACL) is not None:
        return Manners(SHARED, inherits=True)
    anybody = seen.st_mode & stat.S_IWOTH and seen.st_mode & stat.S_ISVTX
    if os.name != "nt" and not anybody and seen.st_mode & (stat.S_ISGID | stat.S_IWGRP):
        return Manners(SHARED, group=seen.st_gid)
    return Manners(PRIVATE)


def make_folder(folder: Path) -> None:
    """Make a folder, and those above it, where they are not there; in a shared one its group may read and write it,
    whatever the umask takes away. Raises OSError."""
    if folder.is_dir():
        return
    if folder.parent != folder:
        make_folder(folder.parent)
    folder.mkdir(exist_ok=True)
    group, change = manners_for(folder.parent).group, getattr(os, "chown", None)
    if group is None or change is None:
        return
    if folder.stat().st_gid != group:
        change(folder, -1, group)
    hands_on = folder.parent.stat().st_mode & stat.S_ISGID
    folder.chmod(stat.S_IMODE(folder.stat().st_mode) | stat.S_IRWXG | hands_on)


def give(fd: int, manners: Manners) -> None:
    """Give an open file these. Raises OSError when one of them cannot be given."""
    if manners.inherits:
        return
    seen = os.fstat(fd)
    _give_owner(fd, seen, manners)
    change_mode = getattr(os, "fchmod", None)
    if change_mode and stat.S_IMODE(os.fstat(fd).st_mode) != manners.mode:
        change_mode(fd, manners.mode)  # whatever the umask took away
    _give_list(fd, manners)


def _give_owner(fd: int, seen: os.stat_result, manners: Manners) -> None:
    change = getattr(os, "fchown", None)
    if change is None:
        return
    if manners.group is not None and seen.st_gid != manners.group:
        change(fd, -1, manners.group)
    if manners.user is not None and seen.st_uid != manners.user and own_number() == 0:
        change(fd, manners.user, -1)  # only who may do anything can leave a file its owner


def _give_list(fd: int, manners: Manners) -> None:
    write, drop = getattr(os, "setxattr", None), getattr(os, "removexattr", None)
    if write is None or drop is None:
        return
    there = _listed(fd, ACL)
    if manners.acl is not None and there != manners.acl:
        write(fd, ACL, manners.acl)
    elif manners.acl is None and there is not None:
        drop(fd, ACL)


def _listed(file: Path | int, name: str) -> bytes | None:
    read = getattr(os, "getxattr", None)
    if read is None:
        return None
    try:
        return bytes(read(file, name))
    except OSError as error:
        if error.errno in NO_LIST:
            return None
        raise


def may_write(path: Path) -> bool:
    """False for someone else's file that one may only read: a folder in which one could replace it is not enough."""
    try:
        seen = os.lstat(path)
    except OSError:
        return True
    return seen.st_uid == own_number() or os.access(path, os.W_OK)


def is_anothers_link(path: Path) -> bool:
    """True for a link that someone else put there: in a folder that others may write to, it leads where they like."""
    try:
        seen = os.lstat(path)
    except OSError:
        return False
    return stat.S_ISLNK(seen.st_mode) and own_number() not in (None, seen.st_uid)


def name_of(number: int) -> str:
    """The name of a user, or the number where no name is known."""
    try:
        import pwd

        return pwd.getpwuid(number).pw_name
    except (ImportError, KeyError, OSError):
        return f"user {number}"


def whose(path: Path) -> str:
    """`it belongs to ann` for what is someone else's; empty for one's own, for nothing, where nobody owns a file."""
    own = own_number()
    try:
        seen = os.lstat(path)
    except OSError:
        return ""
    return f"it belongs to {name_of(seen.st_uid)}" if own is not None and seen.st_uid != own else ""


def told(words: str | None, path: Path) -> str:
    """A reason, with whose the thing is where that explains it."""
    owner = whose(path)
    return f"{words}; {owner}" if owner else str(words)
