"""The page of one record as text: its fields, what names it, what was found, what happened to it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from store.book.chain.history import Entry
from store.book.changes import Step
from store.measure.dates import show_date
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.field import fields_of
from store.records.whole import KINDS, Job
from store.records.wiring import Box, Circuit
from store.rules.about.record import About, facts
from store.rules.core.cautions import CORDS, FIREPLACE, MAINS, PLANNING
from store.rules.core.checks import Item, closed_line
from store.rules.core.figure_titles import titled
from store.rules.core.findings import Finding
from store.rules.core.taken_off import taken_off
from store.rules.gate.gate import outside_line
from store.rules.power.plan import is_heater
from store.rules.wall.places import POWER_BOXES
from tui.acts.pictures import picture_text
from tui.acts.reaching import access_head
from tui.view.state import State
from tui.view.view import name_of

SIGN = {"stop": "■ stop", "fix": "▲ fix", "look": "○ look"}
"""The gravity of a finding as a sign and a word, so that no colour is needed."""


def page_title(state: State, key: str) -> str:
    """The headline of a page."""
    record = state.job.get(key)
    if record is not None:
        return f"{key}  {name_of(record)}"
    item, finding = state.item(key), state.finding(key)
    if finding is not None:
        return f"{SIGN[finding.severity]}  {' '.join(finding.tags)}"
    return f"{key}  {item.check.what}" if item else key


def page_text(state: State, key: str) -> str:
    """The page of a row: a record, a check, or both; or a finding."""
    record, item, finding = state.job.get(key), state.item(key), state.finding(key)
    parts = []
    if finding is not None:
        parts.append(finding_text(finding))
    if item is not None:
        parts.append(_check_lines(item))
    if record is not None:
        known = facts(state.job, key)
        parts.append(access_head(known))
        parts.append(picture_text(record, state.folder))
        worked = _figure_lines(state.job, known)
        # The screen's own list has the pictures that are gone as well, which no rule can see.
        about = "\n".join(finding_text(each) for each in state.about(record.tag))
        fields, named = _field_lines(state.job, record), _reference_lines(known)
        if caution := caution_of(record):
            # The sum belongs beside what it is made of; and whoever reads it reads that it approves nothing.
            parts += [fields, worked, about, named, f"{caution} {PLANNING}"]
        else:
            parts += [fields, named, about, worked]
    return "\n\n".join(part for part in parts if part)


def caution_of(record: Record) -> str:
    """What is said on the page of a box that holds mains wiring, a circuit, a heater or a strip; else nothing."""
    if isinstance(record, Circuit) or (isinstance(record, Box) and record.what in POWER_BOXES):
        return MAINS
    if isinstance(record, Equipment) and is_heater(record):
        return f"{MAINS} {FIREPLACE}"
    return CORDS if isinstance(record, Equipment) and record.what == "strip" else ""


def _check_lines(item: Item) -> str:
    if item.open:
        wants = f"\nWanted: {item.check.wants}" if item.check.wants else ""
        return f"□ open{'' if item.why_open == 'open' else ': ' + item.why_open}{wants}"
    return f"■ {closed_line(item.closing)}" if item.closing else ""


def _field_lines(job: Job, record: Record) -> str:
    lines: list[str] = []
    heading = ""
    for field in fields_of(type(record)):
        heading = field.says.group or heading
        value = getattr(record, field.key)
        if value == field.default and not field.required:
            continue
        if heading:
            lines.append(f"{heading}:" if lines or heading != "Notes" else "Notes:")
            heading = ""
        # A table leaves a `no` out; here it is said, since it is not what the field is by itself.
        words = {"note": str(value), "yes": "yes" if value else "no"}
        shown = words.get(field.codec.name) or field.show(value, job.manner)
        unit = f" {field.says.unit}" if field.says.unit and shown else ""
        lines.append(f"  {field.says.title}: {shown}{unit}")
    return "\n".join(lines)


def _figure_lines(job: Job, known: About) -> str:
    """What was worked out for a record; a sum that is told line by line keeps its lines."""
    lines = []
    for name, value in known.figures.items():
        title, shown = titled(name, value, job.settings.metric)
        if isinstance(value, list | tuple):
            lines += [f"  {title}:", *(f"    {each}" for each in value)] if value else []
        else:
            lines.append(f"  {title}: {shown}")
    return "\n".join(["Worked out:", *lines]) if lines else ""


def _reference_lines(known: About) -> str:
    """What this record names, and what names it."""
    lines = [f"→ {tag} {name_of(named) if named else '(gone)'}" for tag, named in known.names]
    lines += [f"← {each.tag} {each.one} {name_of(each)}" for each in known.named_by]
    return "\n".join(lines)


def finding_text(finding: Finding) -> str:
    """One finding in full."""
    answer = ""
    if finding.answer is not None:
        said = finding.answer
        state = "answered" if finding.answered else "answered, but its numbers changed since"
        papers = ", ".join(each for each in (said.office, said.reference) if each)
        answer = f"\n  {state} {show_date(said.date)} by {said.by}{f' ({papers})' if papers else ''}: {said.says}"
    return (
        f"{SIGN[finding.severity]}: {finding.says}\n  What to do: {finding.remedy}\n  Source: {finding.source}{answer}"
    )


def history_text(entries: Sequence[Entry], tag: str) -> str:
    """What happened to a record, newest first, in the time of this place; values as the file has them."""
    lines: list[str] = []
    for entry in entries:
        lines.append(f"{_local(entry.at)}  {entry.who}: {entry.what}")
        if entry.why:
            lines.append(f"    because: {entry.why}")
        for step in entry.changes:
            if step.tag == tag:
                lines += _step_lines(step)
    return "\n".join(lines) or "Nothing yet."


def _local(at: str) -> str:
    """A time of the history (UTC) on the clock of the wall; one that is no time stays as it is."""
    try:
        return datetime.fromisoformat(at).astimezone().strftime("%Y-%m-%d %H:%M")
    except ValueError:
        return at


def _step_lines(step: Step) -> list[str]:
    """What a step did to one record, a line a field."""
    titles = {field.key: field.says.title for field in fields_of(KINDS[step.kind])} if step.kind in KINDS else {}
    if step.after is None:
        return [f"    {KINDS[step.kind].one if step.kind in KINDS else step.kind} removed"]
    was, now = step.before or {}, step.after
    keys = [key for key in {**was, **now} if key in titles and was.get(key) != now.get(key)]
    if step.before is None:
        return [f"    {titles[key]}: {_value(now[key])}" for key in keys]
    return [f"    {titles[key]}: {_value(was.get(key))} → {_value(now.get(key))}" for key in keys]


def _value(value: object) -> str:
    """A value of the file on one line."""
    if value is None or value == "":
        return "empty"
    text = ", ".join(map(str, value)) if isinstance(value, list) else str(value)
    return text.replace("\n", " / ")


def gate_text(state: State) -> str:
    """What holds the next stage, what came up late, what was taken off the list."""
    now = state.standing
    lines = []
    if now.claimed:
        lines.append(f"The file claims {now.claimed}, and it was not earned: {now.unearned}.\n")
    if now.next is None:
        lines.append(f"The job is in use; there is no stage after it.\n{state.upkeep}")
    elif now.holds:
        lines.append(f"{now.next} is held by {len(now.holds)}:")
        lines += [f"  {hold.key}: {hold.what}" for hold in now.holds]
        strict = any(hold.strict for hold in now.holds)
        lines.append("")
        lines.append(
            "Each is closed with evidence, or called not needed with a reason and a name. There is no other way."
            if strict
            else "It may be passed with a written reason."
        )
    else:
        lines.append(f"Nothing holds {now.next}.")
    if now.found_after:
        lines.append(f"\nFound after the wall was closed: {', '.join(each.key for each in now.found_after)}")
    if off := taken_off(state.job):
        lines.append("\nTaken off the list:")
        lines += [f"  {each.tag} {each.what}: {each.reason} ({each.by}, {each.at[:10]})" for each in off]
    if state.job.outside:
        lines.append("\nNot done by this program:")
        lines += [f"  {outside_line(each)}" for each in state.job.outside]
    if any(each.kind == "history" for each in state.job.outside):
        lines.append("The history is damaged. `studbook verify` on this file says how to go on.")
    return "\n".join(lines)
