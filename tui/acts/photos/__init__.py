"""Photos: shown in the terminal or by the desktop, and those of a phone put to where they belong."""
