"""The app and its screens, their keys and their styles."""

import tui.shared.quick_escape  # noqa: F401 - before Textual, by whichever command the screen comes up
