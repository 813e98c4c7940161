"""How often what holds itself in a circle is looked for: seldom, as looking goes through all that there is.

Answers that are kept are many small things, and few of them are ever let go in circles: with Python's own numbers, half
of the time from a key to its repaint went into looking for such.
"""

from __future__ import annotations

import gc

SELDOM = (50_000, 20, 50)
"""After so many new things the newest are looked through; every so many times those before too; and then all."""


def collect_seldom() -> None:
    """What was made until now stays, and need not be looked through; of what is made from now on, seldom."""
    gc.freeze()
    gc.set_threshold(*SELDOM)
    gc.enable()
