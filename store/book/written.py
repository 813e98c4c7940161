"""Files that the program writes beside a job: what it wrote is known again, and what is not to be touched is not.

Of a sheet that carries a mark, the digest of what was written stands in the mark. Of a list, which can carry none, it
is kept with the person's own files. What was changed since, be it by one letter, is not overwritten unasked; and a job,
its copies, its drafts and its lock are never written over, under whatever name they are met.
"""

from __future__ import annotations

import contextlib
import os
import re
from collections.abc import Iterator
from pathlib import Path

from store.book.errors import Busy
from store.book.ground import disk
from store.book.ground.own_folder import own_folder
from store.book.ground.owner import give, manners_for, manners_of

MOST_REMEMBERED = 500
LETTERS = 24
"""Letters of a digest."""
HEAD = 4096
_SIDE = re.compile(r"^\.(?P<job>.+)\.(?:lock|saving|copy\d+(?:\.new)?|draft-[0-9a-f]+)$")


def is_side_name(name: str) -> bool:
    """True for a name that the files beside a job have: a new job of that name would be taken for one of them, and be
    written over with the next save."""
    return _SIDE.match(name) is not None


class Protected(Busy):
    """A file of a job: nothing else is written over it, asked or not."""


def digest_of(raw: bytes) -> str:
    """What tells one content from another."""
    import hashlib  # brings a whole cryptographic library, and only writing needs it

    return hashlib.sha256(raw).hexdigest()[:LETTERS]


def protect(path: Path, job: Path | None = None) -> None:
    """Raise Protected where a path is, or would be, a file of a job: by its name, by what is in it, or as another name
    of the file. `job` is the job that is worked with, whose files are known even when they are damaged."""
    real = Path(os.path.realpath(path))
    side = _SIDE.match(real.name)
    if side and (job is not None or any(os.path.lexists(each) for each in _family(real.with_name(side["job"])))):
        raise Protected(f"{path}: that name is kept for a job's own files. Nothing was written. Choose another name.")
    if job is not None:
        for each in _family(Path(os.path.realpath(job))):
            with contextlib.suppress(OSError):
                if each == real or each.samefile(real):
                    raise Protected(f"{path}: that is a file of the job. Nothing was written. Choose another name.")
    if disk.plain(real) is not None and _is_job(real):
        raise Protected(f"{path}: that is a Studbook job. Nothing was written. Choose another name.")


def _family(job: Path) -> Iterator[Path]:
    """A job and the files beside it."""
    yield job
    for ending in ("lock", "saving", *(f"copy{number}" for number in range(10))):
        yield job.with_name(f".{job.name}.{ending}")


def _is_job(path: Path) -> bool:
    try:
        raw = disk.read_plain(path)
    except OSError:
        return False
    head = raw[:HEAD].removeprefix(b"\xef\xbb\xbf").lstrip()
    if not head.startswith(b"{"):
        return False
    import msgspec  # brings much, and a sheet that is written out as it was kept needs it nowhere else

    tables = dict[str, dict[str, dict[str, object]]]
    try:
        return isinstance(msgspec.json.decode(raw, type=tables).get("_meta", {}).get("1", {}).get("studbook"), int)
    except (msgspec.MsgspecError, AttributeError, RecursionError):
        return b'"studbook"' in head  # damaged, and somebody's job all the same


def is_as_written(path: Path, raw: bytes) -> bool:
    """True where what is in a file is what this person's program wrote there last."""
    return _remembered().get(str(path)) == digest_of(raw)


def remember(path: Path, raw: bytes) -> None:
    """Note what was written; not being able to is no reason to stop, only to ask the next time."""
    with contextlib.suppress(OSError, ValueError):
        known = _remembered()
        known.pop(str(path), None)
        known[str(path)] = digest_of(raw)
        for each in list(known)[:-MOST_REMEMBERED]:
            del known[each]
        file = _file()
        file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        import json  # opening a job that nobody wrote outside needs none

        replace_file(file, json.dumps(known).encode())


def _file() -> Path:
    return own_folder("XDG_STATE_HOME", ".local/state") / "written.json"


def _remembered() -> dict[str, str]:
    import json

    try:
        known = json.loads(disk.read_plain(_file()))
    except (OSError, ValueError, RecursionError):
        return {}
    return {name: said for name, said in known.items() if isinstance(said, str)} if isinstance(known, dict) else {}


def replace_file(path: Path, raw: bytes) -> None:
    """Put a file in place durably: the whole of it or nothing; who may read it stays, or follows the folder.

    `path` must not be a link. Raises OSError, and then what was there is untouched.
    """
    manners = manners_of(path) if disk.seen(path) is not None else manners_for(path.parent)
    temp = path.with_name(f".{path.name[:40]}.{os.urandom(4).hex()}.new")
    fd = disk.open_new(temp, 0o660 if manners.inherits else 0o600)
    try:
        try:
            give(fd, manners)
            disk.write_all(fd, raw)
        finally:
            disk.let_go(fd)
        temp.replace(path)
    except BaseException:
        with contextlib.suppress(OSError):
            disk.remove(temp)
        raise
    disk.sync_folder(path.parent)
