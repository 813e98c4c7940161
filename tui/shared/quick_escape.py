"""Imported before Textual: Esc and the key after it are two keys, also for quick fingers.

A terminal sends Esc as the same letter that begins the other keys, so Textual waits for what follows: a tenth of a
second unless ESCDELAY says otherwise (the name that curses has for it). Within that a person's next key counted as one
with Alt, and did nothing. What a terminal sends for one key comes in one piece: 25 ms wait for it (common practice; on
a slow line set ESCDELAY higher).
"""

import os

DELAY_MS = 25
os.environ.setdefault("ESCDELAY", str(DELAY_MS))
