"""A finished sheet in the words of the job's region: one door, so that no maker of a sheet has to think of it."""

from __future__ import annotations

import re
from html import escape

from store.measure.terms import regional
from store.records.whole import Job
from store.rules.core.typed import typed_terms

_MARKED_UP = ("html", "svg")
_PLAIN = ("md", "txt", "ics")
_NO_TEXT = re.compile(r"(<style\b.*?</style>|<script\b.*?</script>|<[^>]*>)", re.DOTALL)


def in_region(text: str, form: str, job: Job) -> str:
    """The text of a sheet with the words of the job's region; csv and dxf stay, since programs read their words.

    What a person typed stays as typed. Of a sheet with marks only the text between them is turned.
    """
    if job.settings.region == "us" or form not in (*_MARKED_UP, *_PLAIN):
        return text
    typed = typed_terms(job)
    if form in _PLAIN:
        return regional(text, True, typed)
    # Both ways of writing a quote sign in HTML are in use.
    typed = typed | {escape(each) for each in typed} | {escape(each).replace("&#x27;", "&#39;") for each in typed}
    parts = _NO_TEXT.split(text)
    return "".join(each if each.startswith("<") else regional(each, True, typed) for each in parts)
