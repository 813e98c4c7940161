"""Where a photo belongs, and which pictures are named."""
