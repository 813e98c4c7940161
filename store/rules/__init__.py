"""What follows from a Job: checks, the gate, findings, figures. Nothing here is ever stored."""
