"""Section Access."""
