"""Section Buy."""
