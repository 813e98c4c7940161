"""Working days and the critical path."""
