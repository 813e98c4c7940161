"""A half-filled form, kept beside the job while it is typed: a terminal that goes away takes nothing with it.

A draft is no part of the job: it is one small file a running program, of its owner alone, taken away when the form is
saved or left.
"""

from __future__ import annotations

import os
from datetime import UTC, datetime
from pathlib import Path

import msgspec

from store.book.ground import disk
from store.book.ground.lock import machine
from store.book.ground.own_folder import own_number

MOST_BYTES = 1_000_000
MOST_DRAFTS = 20
NEW, EDIT, LINES, OTHER = "new", "edit", "lines", "other"


class Draft(msgspec.Struct, frozen=True):
    """What was typed into a form."""

    title: str
    kind: str
    way: str
    """`new`: a record of that kind; `edit`: the record of that tag; `lines`: several of that kind, a line each;
    `other`: a form that only its own key opens."""
    tag: str
    start: dict[str, str]
    """What stood in the fields when the form was opened."""
    texts: dict[str, str]
    at: str = ""
    """When it was typed, UTC, ISO 8601."""
    process: int = 0
    machine: str = ""

    @property
    def typed(self) -> dict[str, str]:
        """The fields that were changed. Only these: what else is in the form may be another's by now."""
        return {key: text for key, text in self.texts.items() if text != self.start.get(key, "")}

    @property
    def fills(self) -> dict[str, str]:
        """What to put into the form when it is opened again: of a new record also what it began with, like the wall
        that the cursor was on, as nobody else can have changed that."""
        return self.texts if self.way == NEW else self.typed


class Kept(msgspec.Struct, frozen=True):
    """A draft, and where it is."""

    path: Path
    draft: Draft


def path_of(job: Path, session: str) -> Path:
    """Where the draft of a running program is."""
    return job.with_name(f".{job.name}.draft-{session}")


def keep(job: Path, session: str, draft: Draft) -> None:
    """Keep a draft in the place of the one before. Raises OSError."""
    now = datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
    draft = msgspec.structs.replace(draft, at=now, process=os.getpid(), machine=machine())
    path = path_of(job, session)
    fresh = path.with_name(f"{path.name}.new")
    disk.remove(fresh)
    fd = disk.open_new(fresh, 0o600)
    try:
        disk.write_all(fd, msgspec.json.encode(draft))
    finally:
        disk.let_go(fd)
    fresh.replace(path)


def put_by(job: Path, session: str, draft: Draft) -> Kept:
    """Keep a draft for later, beside that of the form that is typed in next. Raises OSError."""
    aside = f"{session}-{draft.way}-{draft.kind}"
    keep(job, aside, draft)
    return Kept(path_of(job, aside), draft)


def drop(path: Path) -> None:
    """Take a draft away. Raises OSError."""
    disk.remove(path)


def left(job: Path) -> list[Kept]:
    """This person's drafts whose program is gone, oldest first; of others' nothing is read, no link is followed."""
    found = []
    try:
        names = sorted(each.name for each in job.parent.iterdir() if each.name.startswith(f".{job.name}.draft-"))
    except OSError:
        return []
    for name in names[:MOST_DRAFTS]:
        path = job.with_name(name)
        try:
            seen = disk.plain(path)
            if name.endswith(".new") or seen is None or own_number() not in (None, seen.st_uid):
                continue
            draft = msgspec.json.decode(disk.read_plain(path, MOST_BYTES), type=Draft)
        except (OSError, ValueError, RecursionError):
            continue
        if not _runs(draft):
            found.append(Kept(path, draft))
    return sorted(found, key=lambda each: each.draft.at)


def _runs(draft: Draft) -> bool:
    """True while the program that types it is still there."""
    if draft.machine != machine() or draft.process <= 0 or os.name == "nt":
        return False
    if draft.process == os.getpid():
        return True
    try:
        os.kill(draft.process, 0)
    except ProcessLookupError:
        return False
    except (OSError, OverflowError):
        return True
    return True
