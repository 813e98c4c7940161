"""The picture of the real screen that README shows."""
