"""The app and its screens, their keys and their styles."""

import os

# Milliseconds that Textual waits, from when it is imported, before Esc is Esc and not the start of a longer sequence.
# With its own 100 a letter typed soon after Esc is taken together with it for a key that does nothing; hands are slower
# than 50.
os.environ.setdefault("ESCDELAY", "50")
