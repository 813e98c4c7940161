"""Imported before asyncio: lets the screen start without what only a network connection would need.

asyncio asks for ssl and does without where there is none. This program talks to nobody, and ssl would bring OpenSSL
with it: some 8 ms of each start. It is hidden just while asyncio is imported; whoever imports it later finds it as
always.
"""

import sys

if "ssl" not in sys.modules and "asyncio" not in sys.modules:
    sys.modules["ssl"] = None  # type: ignore[assignment]
    try:
        import asyncio as asyncio
    finally:
        del sys.modules["ssl"]
