"""What a change solves and what is new after it."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from store.rules.core.findings import SEVERITY_WORDS, Finding
from store.rules.core.same import not_among


def newly(before: Sequence[Finding], after: Sequence[Finding]) -> list[Finding]:
    """The findings of `after` that `before` has not, or has with other numbers; the gravest first."""
    known = {(each.key, tuple(sorted(each.numbers.items()))) for each in before}
    return [each for each in after if (each.key, tuple(sorted(each.numbers.items()))) not in known]


def solved_and_new(before: Sequence[Finding], after: Sequence[Finding]) -> tuple[list[Finding], list[Finding]]:
    """The findings that are gone, and those that were not there; one whose numbers only changed is neither.

    Most are the very same objects before and after; the others are told apart by key, among those of their rules. A
    finding that tells of several things at once stays the same problem when one of them leaves it or joins it: it is
    not solved, and new only where it is more than a look and somebody joined.
    """
    gone, come = not_among(before, after), not_among(after, before)
    solved, new = _but(gone, {each.key for each in come}), _but(come, {each.key for each in gone})
    rules, others = {each.rule for each in (*solved, *new)}, {id(each) for each in come}
    stay = {each.key for each in after if each.rule in rules and id(each) not in others} if rules else set()
    solved, new = _but(solved, stay), _but(new, stay)
    goes_on = [(one, other) for one in solved for other in new if _is_one_list(one, other)]
    return (
        _but(solved, {one.key for one, _ in goes_on}),
        _but(new, {other.key for one, other in goes_on if other.severity == "look" or {*other.tags} < {*one.tags}}),
    )


def _is_one_list(one: Finding, other: Finding) -> bool:
    """Whether two findings of a rule list the same things, but for some that one of them has more."""
    return one.rule == other.rule and ({*one.tags} < {*other.tags} or {*other.tags} < {*one.tags})


def _but(some: Sequence[Finding], keys: Collection[str]) -> list[Finding]:
    return [each for each in some if each.key not in keys]


def change_words(before: Sequence[Finding], after: Sequence[Finding]) -> str:
    """`Solved 12, new 2: Stop, Lamp cord in a wall, K9 Shelf light`; empty when no problem came or went."""
    return words_of_change(*solved_and_new(before, after))


def words_of_change(solved: Sequence[Finding], new: Sequence[Finding]) -> str:
    """The same, of what `solved_and_new` gives."""
    counts = ([f"solved {len(solved)}"] if solved else []) + ([f"new {len(new)}"] if new else [])
    if not counts:
        return ""
    words = ", ".join(counts)
    worst = f": {SEVERITY_WORDS[new[0].severity]}, {new[0].headline}" if new else "."
    return f"{words[0].upper()}{words[1:]}{worst}"
