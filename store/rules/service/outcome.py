"""What a change of one thing for another came to: does it fit, does it pass, has it its inputs, does the load hold."""

from __future__ import annotations

from collections.abc import Iterator

from store.measure.mass import mass_text
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.access.steps import circuits_of
from store.rules.cable.labels import ends_text
from store.rules.core.broken import newly
from store.rules.core.checks import items
from store.rules.core.figures import figures_on
from store.rules.core.findings import SEVERITY_WORDS, findings
from store.rules.core.wording import listed, named
from store.rules.fit.fit import pieces
from store.rules.service.replacement import panel_for
from store.rules.signal.chain import TALKERS
from store.rules.wall.contents import hung_in
from store.rules.wall.layout import cables_at
from store.rules.wall.pieces import hangs
from store.trade.fit.access_sizes import held_through, part_through
from store.trade.fit.pieces import Size


def what_follows(before: Job, after: Job, tag: str) -> tuple[str, ...]:
    """A line for each question about what took a place, `tag`, then what its coming breaks and what it mends."""
    one = after.of(Equipment).get(tag)
    hung = tuple(_hung(before, after, one)) if one is not None else ()
    return (*_answers(after, tag), *hung, "", *_difference(before, after))


def _answers(job: Job, tag: str) -> Iterator[str]:
    record = job.get(tag)
    if panel := panel_for(job, tag):
        yield f"Through {named(job, panel)}: {_passes(job, tag, panel)}"
    if isinstance(record, Equipment):
        yield from _of_equipment(job, record)
    elif isinstance(record, Cable):
        yield f"Ends: {ends_text(job, record)}"
    for circuit in circuits_of(job, tag):
        yield f"Load: {_load(job, circuit)}"


def _passes(job: Job, tag: str, by: str) -> str:
    one, panel = job.get(tag), job.of(Panel)[by]
    if not isinstance(one, Equipment):
        return "pull it in there"
    part = Size(*(side.nm if side else None for side in (one.width, one.height, one.depth)))
    if panel.width is None or panel.height is None:
        return "not known: no clear size entered for the panel"
    verdict = part_through(part, panel.width.nm, panel.height.nm).verdict
    if verdict == "not known":
        return "not known: no sizes entered"
    if verdict != "does not fit" and held_through(part, panel.width.nm, panel.height.nm) is False:
        return "it fits through, with no room for hands at its sides"
    return "it does not fit through whichever way you turn it" if verdict == "does not fit" else "it fits through"


def _hung(before: Job, job: Job, one: Equipment) -> Iterator[str]:
    """What hangs: its weight against that of the old one, its bracket, and whether the backing still counts."""
    if not hangs(one):
        return
    old = next((each for each in before.of(Equipment).values() if _gave_way(job, each.tag, one.tag)), None)
    weight = _weight(job, one)
    was = f", was {_weight(job, old)}" if old is not None and _weight(job, old) != weight else ""
    yield f"Weight: {weight}{was}"
    mounts = [each for each in hung_in(job, one.opening) if each.what == "mount"]
    for mount in mounts:
        holes = f", holes {mount.holes}" if mount.holes else ""
        yield f"Bracket: {named(job, mount.tag)}{holes}; the TV has {one.holes or 'no hole pattern entered'}"
    if not mounts:
        yield f"Bracket: none listed for {named(job, one.opening) if one.opening else one.tag}"
    keys = [f"{tag}/backing" for tag in (one.opening, one.tag) if tag]
    for item in (each for each in items(job) if each.check.key in keys):
        stands = f"open ({item.why_open})" if item.open else "signed off for this weight"
        yield f"Blocking: {item.key}, {stands}"


def _gave_way(job: Job, old: str, new: str) -> bool:
    now = job.of(Equipment).get(old)
    return now is not None and now.replaced_by == new


def _weight(job: Job, one: Equipment) -> str:
    return mass_text(one.weight, job.settings.metric) if one.weight is not None else "not entered"


def _of_equipment(job: Job, one: Equipment) -> Iterator[str]:
    if (piece := pieces(job).get(one.tag)) is not None:
        missing = f" (not entered: {', '.join(piece.missing)})" if piece.missing else ""
        yield f"In {named(job, one.opening)}: {piece.verdict}{missing}"
    cables = [each.tag for each in cables_at(job).get(one.tag, ())]
    if one.ports or one.what in TALKERS:
        yield f"Ports: {', '.join(one.ports) if one.ports else 'not entered, so its inputs are not known'}"
    if cables:
        yield f"Cables: {listed(cables)} {'ends' if len(cables) == 1 else 'end'} at it"
    if one.power in ("cord", "wall-wart"):
        yield f"Plug: {f'at {named(job, one.plug)}' if one.plug else 'no receptacle entered'}"


def _load(job: Job, circuit: str) -> str:
    found = figures_on(job, circuit)
    drawn, limit = found.get("design_a"), found.get("limit_a")
    if drawn is None or limit is None:
        return f"{named(job, circuit)}, limit not known"
    return f"{named(job, circuit)} carries {drawn:.1f} A of {limit:.1f} A" + (": too much" if drawn > limit else "")


def _difference(before: Job, after: Job) -> Iterator[str]:
    was, now = findings(before), findings(after)
    broken, mended = newly(was, now), newly(now, was)
    # One whose numbers only changed is both: it is told as what it is now.
    mended = [each for each in mended if each.key not in {other.key for other in broken}]
    for title, found in (("New problems", broken), ("Solved", mended)):
        if found:
            yield f"{title}:"
            yield from (f"  {SEVERITY_WORDS[each.severity]}: {each.headline}" for each in found)
    if not broken:
        yield "No new problems, from what is entered."
