"""A first proposal for a wall from a dozen answers; everything in it is to be changed, or agreed."""
