"""Ports, the signal chain, and what a run loses."""
