"""Imported before anything else: lets the command line start without a library that nothing here needs.

msgspec asks for typing_extensions and falls back on typing, which has all that it wants from Python 3.11 on.
typing_extensions would bring inspect, ast and dis with it: a fifth of the time of `studbook status`. It is hidden
just while msgspec is imported; Textual finds it as always.
"""

import sys

if "msgspec" not in sys.modules and "typing_extensions" not in sys.modules:
    sys.modules["typing_extensions"] = None  # type: ignore[assignment]
    try:
        import msgspec as msgspec
    finally:
        del sys.modules["typing_extensions"]
