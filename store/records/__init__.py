"""The records of a job, one module a family, and Job: the whole of them in memory."""
