"""What a change solved and what is new after it, told from the findings before and after."""

from __future__ import annotations

from store.rules.core.broken import change_words, solved_and_new
from store.rules.core.findings import Finding, Severity
from store.rules.core.same import not_among


def one(rule: str, *tags: str, severity: Severity = "fix") -> Finding:
    return Finding(rule, severity, tags, "Head", "Do it.", "common practice", why="Why.")


def keys(before: list[Finding], after: list[Finding]) -> tuple[list[str], list[str]]:
    solved, new = solved_and_new(before, after)
    return [each.key for each in solved], [each.key for each in new]


def test_a_list_that_somebody_joins_or_leaves_goes_on() -> None:
    few, more = one("a", "E1", "E2"), one("a", "E1", "E2", "E3")
    assert keys([few], [more]) == ([], [more.key]), "new for the one that joined"
    assert keys([more], [few]) == ([], [])
    look, looks = one("a", "E1", severity="look"), one("a", "E1", "E2", severity="look")
    assert keys([look], [looks]) == ([], [])
    assert keys([few], [one("b", "E1", "E2", "E3")])[0] == [few.key], "another rule's is another problem"
    other = one("a", "E1", "E4")
    assert keys([few], [other]) == ([few.key], [other.key])
    assert keys([few], []) == ([few.key], [])
    assert change_words([more, other], [few]) == "Solved 1."


def test_what_is_not_among_others_is_told_by_itself_wherever_it_stands() -> None:
    a, b, c, d = ([number] for number in range(4))
    assert not_among([a, b, c], [a, d, c]) == [b]
    assert not_among([a, b, c], [a, c]) == [b]
    assert not_among([a, c], [a, b, c]) == []
    assert not_among([a, b, c, d], [b, d]) == [a, c]
    assert not_among([a, b, c], [a, b, c, d]) == []
    assert not_among([c, a, b], [a, b, c]) == [], "the order alone is no difference"
    assert not_among([a, [1]], [a, b]) == [[1]], "an equal one is another"
    assert not_among([], [a]) == []
    assert not_among([a, b], []) == [a, b]
