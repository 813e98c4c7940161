"Access to"

from __future__ import annotations

from store.records.access import Panel, Visit
from store.records.whole import Job
from store.rules.about.record import IN_PLACE, About, facts
from store.rules.access.panel_contents import panel_contents
from store.rules.access.steps import log_by_panel, thing_lines, visit_text
from store.rules.core.cautions import MAINS
from tui.view.desk import Desk
from tui.view.view import Key, name_of

CAUTION = f"{MAINS} From the plan and the log. Look before you reach in."


def way_tag(job: Job, key: str) -> str:
    """The thing a row is about: itself, what a check follows from, the panel of an entry of the log; or nothing."""
    tag = key.partition("/")[0]
    record = job.get(tag)
    if isinstance(record, Visit):
        return str(record.panel)
    return tag if isinstance(record, IN_PLACE) else ""


def access_head(known: About) -> str:
    """The first lines of a page: what is off first, what is opened, what comes out; for a panel all that is behind."""
    if known.access is None:
        return ""
    return "\n".join(known.access.lines if isinstance(known.record, Panel) else known.access.brief)


def way_text(job: Job, tag: str) -> str:
    """All of it: breakers, what is opened, what stands in front, what is seen, what is beside that, the log, photos."""
    access = facts(job, tag).access
    lines = [*access.lines] if access is not None else []
    if isinstance(job.get(tag), Panel):
        if near := panel_contents(job)[tag].near:
            lines += ["", "Also within reach:", *(f"  {line}" for line in thing_lines(job, near))]
        if log := log_by_panel(job).get(tag):
            lines += ["", "Opened:", *(f"  {visit_text(job, each)}" for each in log)]
    return "\n".join([*lines, "", CAUTION])


def show_way(desk: Desk, key: str) -> None:
    """Show how to get at the thing of a row."""
    job = desk.state.job
    tag = way_tag(job, key)
    record = job.get(tag)
    if record is None:
        desk.say(f"{key} is not in the wall", bad=True)
        return
    head = "What is behind" if isinstance(record, Panel) else "Access to"
    desk.read(f"{head} {tag} {name_of(record)}", way_text(job, tag))


WAY_KEY = Key("i", "Access", show_way)
"""The key of every list of things in the wall."""
