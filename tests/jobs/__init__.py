"""Jobs and cases that many tests share."""
