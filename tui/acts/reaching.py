"""How to get at a thing, on the screen: short at the head of its page, whole by one key."""

from __future__ import annotations

from store.records.access import Panel, Visit
from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit, Raceway
from store.rules.access.panel_contents import panel_contents
from store.rules.access.steps import Reach, log_by_panel, reach, thing_lines, visit_text
from store.rules.core.cautions import MAINS
from tui.view.desk import Desk
from tui.view.view import Key, name_of

CAUTION = f"{MAINS} By the plan and the log; look before you reach in."
IN_PLACE = (Panel, Equipment, Box, Cable, Raceway, Opening, Circuit)
"""Kinds of record that are somewhere in the wall."""


def way_tag(job: Job, key: str) -> str:
    """The thing a row is about: itself, what a check follows from, the panel of an entry of the log; or nothing."""
    tag = key.partition("/")[0]
    record = job.get(tag)
    if isinstance(record, Visit):
        return str(record.panel)
    return tag if isinstance(record, IN_PLACE) else ""


def way_head(job: Job, key: str) -> str:
    """The first lines of a page: what is off first, what is opened, what comes out; for a panel all that is behind."""
    record = job.get(key)
    if not isinstance(record, IN_PLACE):
        return ""
    found: Reach = reach(job, key)
    lines = found.lines if isinstance(record, Panel) else found.brief
    return "\n".join(lines)


def way_text(job: Job, tag: str) -> str:
    """All of it: breakers, what is opened, what stands in front, what is seen, what is beside that, the log, photos."""
    lines = [*reach(job, tag).lines]
    if isinstance(job.get(tag), Panel):
        if near := panel_contents(job)[tag].near:
            lines += ["", "Beside that, within reach:", *(f"  {line}" for line in thing_lines(job, near))]
        if log := log_by_panel(job).get(tag):
            lines += ["", "Opened:", *(f"  {visit_text(each)}" for each in log)]
    return "\n".join([*lines, "", CAUTION])


def show_way(desk: Desk, key: str) -> None:
    """Show how to get at the thing of a row."""
    job = desk.state.job
    tag = way_tag(job, key)
    record = job.get(tag)
    if record is None:
        desk.say(f"{key} is nowhere in the wall", bad=True)
        return
    head = "What is behind" if isinstance(record, Panel) else "How to get at"
    desk.read(f"{head} {tag} {name_of(record)}", way_text(job, tag))


WAY_KEY = Key("i", "Way to it", show_way)
"""The key of every list of things in the wall."""
