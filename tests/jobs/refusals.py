"""The shape of a refusal, as that of a finding: a headline in 60 characters, each tag once, and then what to do."""

from __future__ import annotations

import re

from store.measure.errors import StudbookError
from store.rules.core.headline import MOST

_TAG = re.compile(r"\b[A-Z]\d+\b(?:/[a-z ]+)?")
DOES = re.compile(
    r"\b(accept|add|ask|change|check|choose|clear|copy|correct|delete|enter|export|fill|fix|give|go back|keep|leave|"
    r"look|make|move|open|put back|restore|run|save|set|shorten|sign off|split|try|undo|use|write|there are|"
    r"nothing was changed)\b",
    re.IGNORECASE,
)
"""The verbs with which a refusal says what to do, or the list to choose from."""


def shaped(error: StudbookError) -> None:
    """Fails for a refusal whose first sentence is no headline, or that does not say what to do."""
    head, rest = error.headline, error.remedy
    assert head, "a refusal without words"
    assert len(head) <= MOST, f"{len(head)} characters: {head}"
    tags = _TAG.findall(head)
    assert len(tags) == len(set(tags)), f"a tag twice: {head}"
    assert ":\n" in str(error) or DOES.search(rest), f"nothing to do: {error}"
