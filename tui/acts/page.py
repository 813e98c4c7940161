"""The page of one record as text: its fields, what names it, what was found, what happened to it."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from datetime import date, datetime
from typing import Any

from store.book.chain.history import Entry
from store.book.changes import Step
from store.measure.dates import show_date
from store.measure.errors import BadValue
from store.records.base import Record, from_doc
from store.records.equipment import Equipment
from store.records.field import Field, Manner, fields_of
from store.records.whole import KINDS, Job
from store.records.wiring import Box, Circuit
from store.rules.about.record import About, facts
from store.rules.core.cautions import CORDS, FIREPLACE, MAINS, PLANNING
from store.rules.core.checks import Item, closed_line
from store.rules.core.figure_titles import TWICE, titled
from store.rules.core.findings import Finding, accepted_line
from store.rules.core.together import of_one_kind
from store.rules.core.wording import date_text
from store.rules.power.plan import is_heater
from store.rules.wall.places import POWER_BOXES
from tui.acts.photos.pictures import picture_text
from tui.acts.reaching import access_head
from tui.shared.bars import SHARES, bar, share
from tui.view.state import State
from tui.view.view import name_of

SIGN = {"stop": "■ Stop", "fix": "▲ Fix", "look": "○ Check"}
"""The gravity of a finding as a sign and a word, so that no colour is needed."""
_DAY = re.compile(r"\d{4}-\d\d-\d\d")


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
        parts += _with_its_kind(state, finding)
    if item is not None:
        parts.append(_check_lines(item, state.job.manner.day_first))
    if record is not None:
        known = facts(state.job, key)
        parts.append(access_head(known))
        parts.append(picture_text(state.job, record, state.folder))
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


def _with_its_kind(state: State, finding: Finding) -> list[str]:
    """A finding in full, and below it those that stand on one line of the list with it."""
    alike = [each for each in of_one_kind(state.found, finding) if each.key != finding.key]
    if not alike:
        return [finding_text(finding, state.job.manner.day_first)]
    more = f"{len(alike)} more of this kind. To accept one by itself: f = next filter, then v on its line."
    return [finding_text(finding, state.job.manner.day_first), more, *map(finding_text, alike)]


def caution_of(record: Record) -> str:
    """What is said on the page of a box that holds mains wiring, a circuit, a heater or a strip; else nothing."""
    if isinstance(record, Circuit) or (isinstance(record, Box) and record.what in POWER_BOXES):
        return MAINS
    if isinstance(record, Equipment) and is_heater(record):
        return f"{MAINS} {FIREPLACE}"
    return CORDS if isinstance(record, Equipment) and record.what == "strip" else ""


def _check_lines(item: Item, day_first: bool) -> str:
    if item.open:
        wants = f"\n{item.check.more}" if item.check.more else ""
        wants += f"\nNeeds: {item.check.wants}" if item.check.wants else ""
        return f"□ open{'' if item.why_open == 'open' else ': ' + item.why_open}{wants}"
    return f"✓ {closed_line(item.closing, day_first)}" if item.closing else ""


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
        lines.append(f"  {field.title(job.manner)}: {shown}")
    return "\n".join(lines)


def _figure_lines(job: Job, known: About) -> str:
    """What was worked out for a record; a sum that is told line by line keeps its lines."""
    lines = [
        f"  {title[0].upper()}{title[1:]}: {bar(*part, 20)} {part[0] / part[1]:.0%}"
        for title in SHARES
        if (part := share(known.figures, title)) is not None
    ]
    for name, value in known.figures.items():
        if name in TWICE[job.settings.metric] or name.endswith("_minor"):
            continue
        title, shown = titled(name, value, job.settings.metric)
        if isinstance(value, list | tuple):
            lines += [f"  {title}:", *(f"    {each}" for each in value)] if value else []
        else:
            day = isinstance(value, str) and _DAY.fullmatch(value)
            lines.append(f"  {title}: {date_text(job, date.fromisoformat(value)) if day else shown}")
    return "\n".join(["Calculated:", *lines]) if lines else ""


def _reference_lines(known: About) -> str:
    """What this record names, and what names it."""
    lines = [f"→ {tag} {name_of(named) if named else '(gone)'}" for tag, named in known.names]
    lines += [f"← {each.tag} {each.one} {name_of(each)}" for each in known.named_by]
    return "\n".join(lines)


def finding_text(finding: Finding, day_first: bool = False) -> str:
    """One finding in full."""
    answer = ""
    if finding.answer is not None:
        changed = "" if finding.answered else " Does not count now: its numbers changed, or it may not be accepted."
        answer = f"\n  {accepted_line(finding.answer, day_first)}{changed}"
    why = f"\n  Why: {finding.why}" if finding.why else ""
    head = finding.headline if finding.why else finding.head
    return f"{SIGN[finding.severity]}: {head}{why}\n  Do: {finding.do}\n  Source: {finding.source}{answer}"


def history_text(entries: Sequence[Entry], tag: str, manner: Manner) -> str:
    """What happened to a record, newest first, in the time of this place, as this owner writes."""
    lines: list[str] = []
    for entry in entries:
        lines.append(f"{_local(entry.at, manner.day_first)}  {entry.who}: {entry.what}")
        if entry.why:
            lines.append(f"    why: {entry.why}")
        for step in entry.changes:
            if step.tag == tag:
                lines += _step_lines(step, manner)
    return "\n".join(lines) or "No changes yet."


def _local(at: str, day_first: bool) -> str:
    """A time of the history (UTC) on the clock of the wall; one that is no time stays as it is."""
    try:
        local = datetime.fromisoformat(at).astimezone()
        return f"{show_date(local.date(), day_first)} {local:%H:%M}"
    except ValueError:
        return at


def _step_lines(step: Step, manner: Manner) -> list[str]:
    """What a step did to one record, a line a field."""
    cls = KINDS.get(step.kind)
    fields = {field.key: field for field in fields_of(cls)} if cls is not None else {}
    if step.after is None:
        return [f"    {cls.one if cls is not None else step.kind} deleted"]
    was, now = step.before or {}, step.after
    keys = [key for key in {**was, **now} if key in fields and was.get(key) != now.get(key)]
    first, second = _shown(step, was, fields, manner), _shown(step, now, fields, manner)
    if step.before is None:
        return [f"    {fields[key].title(manner)}: {second[key]}" for key in keys]
    return [f"    {fields[key].title(manner)}: {first[key]} → {second[key]}" for key in keys]


def _shown(step: Step, doc: Mapping[str, Any], fields: Mapping[str, Field], manner: Manner) -> dict[str, str]:
    """The values of a document on one line each; as the file has them where it cannot be read any more."""
    found = dict.fromkeys(fields, "blank")
    try:
        record = from_doc({"tag": step.tag, **doc}, KINDS[step.kind])
    except (BadValue, KeyError):
        for key, value in doc.items():
            found[key] = ", ".join(map(str, value)) if isinstance(value, list) else str(value)
    else:
        for key, field in fields.items():
            value = getattr(record, key)
            found[key] = ("no" if value is False else field.show(value, manner)) or "blank"
    return {key: text.replace("\n", " / ") for key, text in found.items()}
