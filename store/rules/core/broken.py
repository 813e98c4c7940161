"""What a change solves and what is new after it."""

from __future__ import annotations

from collections.abc import Sequence

from store.rules.core.findings import SEVERITY_WORDS, Finding


def newly(before: Sequence[Finding], after: Sequence[Finding]) -> list[Finding]:
    """The findings of `after` that `before` has not, or has with other numbers; the gravest first."""
    known = {(each.key, tuple(sorted(each.numbers.items()))) for each in before}
    return [each for each in after if (each.key, tuple(sorted(each.numbers.items()))) not in known]


def solved_and_new(before: Sequence[Finding], after: Sequence[Finding]) -> tuple[list[Finding], list[Finding]]:
    """The findings that are gone, and those that were not there; one whose numbers only changed is neither."""
    was, now = {each.key for each in before}, {each.key for each in after}
    return [each for each in before if each.key not in now], [each for each in after if each.key not in was]


def change_words(before: Sequence[Finding], after: Sequence[Finding]) -> str:
    """`Solved 12, new 2: Stop, Lamp cord in a wall, K9 Shelf light`; empty when no problem came or went."""
    solved, new = solved_and_new(before, after)
    counts = ([f"solved {len(solved)}"] if solved else []) + ([f"new {len(new)}"] if new else [])
    if not counts:
        return ""
    words = ", ".join(counts)
    worst = f": {SEVERITY_WORDS[new[0].severity]}, {new[0].headline}" if new else "."
    return f"{words[0].upper()}{words[1:]}{worst}"
