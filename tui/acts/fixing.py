"""The fix of a problem: what would change, what it solves, what is new; then all of it as one action."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from store.book.changes import Change, add, edit
from store.measure.counts import plural
from store.rules.core.findings import SEVERITY_WORDS, Finding
from store.rules.fixes.fix import Offer, can_fix, change_lines, offer

if TYPE_CHECKING:
    from tui.view.desk import Desk

APPLY = "y"


def fix_problem(desk: Desk, key: str | None) -> None:
    """Offer the fix of a problem, or of one of those that a record has."""
    finding = desk.state.finding(key) if key else None
    if finding is not None:
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


def _look(desk: Desk, finding: Finding) -> None:
    if finding.answered:
        desk.say("This one was accepted. Nothing to fix", bad=True)
        return
    found = offer(desk.state.job, finding) if can_fix(finding) else None
    if found is None:
        desk.say("No automatic fix for this one. Enter = what to do", bad=True)
        return
    job = desk.state.job

    def then(pressed: str | None) -> None:
        if pressed != APPLY:
            return
        if desk.state.job is not job:
            desk.say("The job changed meanwhile. Look at the fix again. F = fix", bad=True)
        elif desk.act(f"Fix: {found.fix.says}", changes_of(found, desk)):
            desk.done(f"Fixed: {found.fix.says}. u = undo")

    desk.read(f"Fix: {found.fix.says}?", preview(desk, finding, found), [(APPLY, "apply")], then)


def preview(desk: Desk, finding: Finding, found: Offer) -> str:
    """What changes, what it solves and what is new, in lines."""
    lines = [f"Problem: {finding.headline}", "", "Changes:"]
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
