"""What the book stands on: the disk, its owners and locks, on each system in the way that it has there."""
