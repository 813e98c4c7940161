"""A finished sheet in the words of the job's region: one door, so that no maker of a sheet has to think of it."""

from __future__ import annotations

import re
from html import escape

from store.measure.terms import regional
from store.records.whole import Job
from store.rules.core.typed import typed_terms

_MARKED_UP = ("html", "svg")
_PLAIN = ("md", "txt", "ics", "csv")
_ESCAPED = {
    "md": re.compile(r"[\\`*_{}\[\]<>#|~!&]"),
    "ics": re.compile(r"[\\;,]"),
}
"""The signs before which a form puts a backslash."""
_CONTENT = re.compile(r'content: "[^"<>]*"')
_NO_TEXT = re.compile(r"(<style\b.*?</style>|<script\b.*?</script>|<[^>]*>)", re.DOTALL)


def in_region(text: str, form: str, job: Job) -> str:
    """The text of a sheet with the words of the job's region; dxf stays, since programs read its words.

    What a person typed stays as typed. Of a sheet with marks only the text between them is turned.
    """
    if job.settings.region == "us" or form not in (*_MARKED_UP, *_PLAIN):
        return text
    typed = typed_terms(job)
    if form in _PLAIN:
        return regional(text, True, typed | _as_written(typed, form))
    # Both ways of writing a quote sign in HTML are in use.
    typed = typed | {escape(each) for each in typed} | {escape(each).replace("&#x27;", "&#39;") for each in typed}
    # What a style sheet puts at the foot of every page is text too.
    parts = _NO_TEXT.split(_CONTENT.sub(lambda found: regional(found[0], True, typed), text))
    return "".join(each if each.startswith("<") else regional(each, True, typed) for each in parts)


def _as_written(typed: frozenset[str], form: str) -> frozenset[str]:
    """Typed words as they stand in a sheet of a form, with its marks before what it would read otherwise."""
    if form == "csv":
        return frozenset(each.replace('"', '""') for each in typed)
    if (escaped := _ESCAPED.get(form)) is None:
        return frozenset()
    return frozenset(escaped.sub(lambda sign: f"\\{sign[0]}", each) for each in typed)
