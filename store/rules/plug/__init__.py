"""Where each cord is plugged in."""
