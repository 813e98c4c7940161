"""The packet of each trade: its scope, its questions, what changed since."""
