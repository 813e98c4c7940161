"""Days, days off, and the order of the steps."""
