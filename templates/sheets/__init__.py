"""What a job prints: one module a sheet."""
