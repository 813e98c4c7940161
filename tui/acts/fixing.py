"""The fix of a problem: what would change, what it solves, what is new; then all of it as one action."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from store.book.changes import Change, add, edit
from store.measure.counts import plural
from store.records.whole import Job
from store.rules.core.findings import SEVERITY_WORDS, Finding
from store.rules.core.together import of_one_kind
from store.rules.fixes.fix import Offer, can_fix, change_lines, offer, offer_all

if TYPE_CHECKING:
    from tui.view.desk import Desk
    from tui.view.state import State

PROPOSED, AGREED_TO = "proposed", "proposed_not_agreed"
"""Key of what holds a stage that rests on a first plan, and the rule whose fix agrees to it."""
APPLY, ONE_BY_ONE, SKIP = "y", "1", "space"
MOST_AT_ONCE = 12
"""Problems of one kind that are fixed together: each fix is tried against all rules."""


def fix_problem(desk: Desk, key: str | None) -> None:
    """Offer the fix of a problem, of all that are of its kind, or of one of those that a record has."""
    finding = _problem(desk.state, key) if key else None
    if finding is not None:
        alike = [each for each in of_one_kind(desk.state.found, finding) if can_fix(each)][:MOST_AT_ONCE]
        if len(alike) > 1 and not finding.answered:
            _look_all(desk, alike)
        else:
            _look(desk, finding)
        return
    about = [each for each in desk.state.about(key) if can_fix(each)] if key else []
    if not about:
        desk.say("No automatic fix here. Enter = what to do", bad=True)
    elif len(about) == 1:
        _look(desk, about[0])
    else:
        found = {each.key: each for each in about}
        choices = [(each.key, f"{SEVERITY_WORDS[each.severity]}: {each.headline}") for each in about]
        desk.pick("Fix which problem?", choices, lambda which: _look(desk, found[which]))


def _problem(state: State, key: str) -> Finding | None:
    """The problem of a key: its own, or the one that a line of what to do next or of the gate is about."""
    due = state.due(key)
    found = state.finding(key) or (state.finding(due.place.key) if due is not None else None)
    if found is None and key.removeprefix("hold:") == PROPOSED:
        found = next((each for each in state.found if each.rule == AGREED_TO and not each.answered), None)
    return found


def _look_all(desk: Desk, alike: Sequence[Finding]) -> None:
    """All of one kind: with one look and as one action, or one after the other."""
    job = desk.state.job
    found, left = offer_all(job, alike)
    if found is None:
        desk.say("No automatic fix for these. Enter = what to do", bad=True)
        return
    offered = found
    head = "Problems:\n" + "\n".join(f"  {each.headline}" for each in alike if each not in left)
    if left:
        head += "\nNot fixed by it:\n" + "\n".join(f"  {each.headline}" for each in left)

    def then(pressed: str | None) -> None:
        if pressed == APPLY:
            _apply(desk, job, offered)
        elif pressed == ONE_BY_ONE:
            _one_after_another(desk, [each.key for each in alike])

    fixed = len(alike) - len(left)
    keys = [(APPLY, f"apply all {fixed}" if fixed > 1 else "apply"), (ONE_BY_ONE, "one by one")]
    desk.read(f"{offered.fix.says}?", preview(desk, head, offered), keys, then)


def _one_after_another(desk: Desk, keys: Sequence[str]) -> None:
    """Look at the fix of the first that is still a problem, and then at the next; each is an action of its own."""
    for at, key in enumerate(keys):
        finding = desk.state.finding(key)
        if finding is not None and not finding.answered:
            _look(desk, finding, lambda rest=keys[at + 1 :]: _one_after_another(desk, rest))  # type: ignore[misc]
            return


def _look(desk: Desk, finding: Finding, following: Callable[[], None] | None = None) -> None:
    """Show a fix and apply it when asked to; `following` is what comes after it, applied or skipped."""
    if finding.answered:
        desk.say("This one was accepted. Nothing to fix", bad=True)
        return
    found = offer(desk.state.job, finding) if can_fix(finding) else None
    if found is None:
        desk.say("No automatic fix for this one. Enter = what to do", bad=True)
        if following is not None:
            following()
        return
    job = desk.state.job

    def then(pressed: str | None) -> None:
        if pressed == APPLY:
            _apply(desk, job, found)
        if pressed is not None and following is not None:
            following()

    keys = [(APPLY, "apply"), *([(SKIP, "skip")] if following is not None else [])]
    desk.read(f"{found.fix.says}?", preview(desk, f"Problem: {finding.headline}", found), keys, then)


def _apply(desk: Desk, job: Job, found: Offer) -> None:
    """Do it as one action, if the job is still the one that was looked at."""
    if desk.state.job is not job:
        desk.say("The job changed meanwhile. Look at the fix again. F = fix", bad=True)
    elif desk.act(found.fix.says, changes_of(found, desk)):
        desk.done(f"Done: {found.fix.says}. u = undo")


def preview(desk: Desk, head: str, found: Offer) -> str:
    """What changes, what it solves and what is new, in lines under a head."""
    lines = [head, "", "Changes:"]
    lines += [f"  {each}" for each in change_lines(desk.state.job, found.fix)]
    lines += ["", f"Solves {plural(len(found.solved), 'problem')}:"]
    lines += [f"  {SEVERITY_WORDS[each.severity]}: {each.headline}" for each in found.solved]
    if found.new:
        lines += ["", f"New {plural(len(found.new), 'problem')}:"]
        lines += [f"  {SEVERITY_WORDS[each.severity]}: {each.headline}" for each in found.new]
    else:
        lines += ["", "No new problems."]
    return "\n".join([*lines, "", "It changes the plan, not the wall. Local code and licensed practice win."])


def changes_of(found: Offer, desk: Desk) -> Sequence[Change]:
    """The fix as changes of records, for one action."""
    job = desk.state.job
    return (
        *(add(record, keep_tag=True) for record in found.fix.added),
        *(edit(job.tables[record.kind][record.tag], record) for record in found.fix.changed),
    )
