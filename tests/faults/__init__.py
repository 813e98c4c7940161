"""Faults that a job must survive."""
