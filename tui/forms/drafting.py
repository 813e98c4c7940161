"""Keeps what is typed into a form beside the job, every moment, until it is saved or left."""

from __future__ import annotations

import contextlib
from collections.abc import Mapping
from pathlib import Path
from typing import Protocol

from store.book import drafts
from store.book.drafts import Draft

KEEP_EVERY_S = 1.0
"""A terminal that goes away takes at most so much typing with it."""


class Drafted(Protocol):
    """A form that is drafted."""

    @property
    def unsaved(self) -> bool:
        """True when something was typed that is not saved."""

    @property
    def start_texts(self) -> Mapping[str, str]:
        """What stood in the fields when it was opened."""

    @property
    def typed_texts(self) -> Mapping[str, str]:
        """What stands in them now, also in a window over the form."""


class Drafting:
    """The draft of one form."""

    def __init__(
        self,
        job: Path,
        session: str,
        about: tuple[str, str, str, str],
        adopted: drafts.Kept | None = None,
        waiting: dict[tuple[str, str], drafts.Kept] | None = None,
    ) -> None:
        """`about`: title, kind, way and tag of a Draft; `adopted` is one that goes on in this form; what is put by is
        added to those `waiting`, by title and kind."""
        self._job, self._session, self._about = job, session, about
        self._waiting = {} if waiting is None else waiting
        self._kept: dict[str, str] | None = None
        if adopted is not None:
            with contextlib.suppress(OSError):
                drafts.keep(job, session, adopted.draft)
                self._kept = {}
                drafts.drop(adopted.path)

    def keep(self, form: Drafted) -> None:
        """Keep what is typed, if that is news. Where it cannot be kept, the form itself still has it."""
        texts = dict(form.typed_texts)
        if texts == self._kept or (self._kept is None and not form.unsaved):
            return
        with contextlib.suppress(OSError):
            drafts.keep(self._job, self._session, Draft(*self._about, dict(form.start_texts), texts))
            self._kept = texts

    def put_by(self, form: Drafted) -> None:
        """The form is left, what is typed kept for later; where the disk takes nothing, while the program runs."""
        draft = Draft(*self._about, dict(form.start_texts), dict(form.typed_texts))
        kept = drafts.Kept(drafts.path_of(self._job, self._session), draft)
        with contextlib.suppress(OSError):
            kept = drafts.put_by(self._job, self._session, draft)
        self._waiting[self._about[:2]] = kept

    def drop(self) -> None:
        """The form was saved or left."""
        if self._kept is not None:
            with contextlib.suppress(OSError):
                drafts.drop(drafts.path_of(self._job, self._session))
            self._kept = None
