"""The history: a chain of sealed entries, the newest at hand, the older ones packed."""
