"""What a run loses, of each cable."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import Length
from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.cable.lengths import Need, needs
from store.rules.core.figures import Figure, figures_of
from store.rules.core.keyed import from_each
from store.rules.signal.limits import coax_loss, speaker_run


@figures_of("cable")
@from_each(Cable)
def of_runs(job: Job, cable: Cable) -> Iterable[Figure]:
    """What the run of every cable in use loses."""
    tag, need = cable.tag, needs(job).get(cable.tag)
    if need is None:
        return
    yield from _losses(job, tag, need)


def _losses(job: Job, tag: str, need: Need) -> Iterable[Figure]:
    if (run := speaker_run(need)) is not None:
        yield tag, "loss_pct", round(run.percent, 2)
        yield tag, "longest_run", Length(run.longest, job.settings.metric)
    if (loss := coax_loss(job, tag)) is not None:
        yield tag, "loss_db", round(loss.db, 2)
        yield tag, "loss_at_mhz", loss.mhz
