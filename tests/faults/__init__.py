"""Every fault that a disk, a system, a terminal or a person can bring on a job: what was tried, and what was lost."""
