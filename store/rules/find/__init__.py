"""Finding anything in the job by its words."""
