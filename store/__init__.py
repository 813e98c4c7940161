"""What a job knows and what follows from it; nothing here knows a screen."""
