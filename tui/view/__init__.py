"""What a view is, and what it may ask of the screen."""
