"""What every part of the program needs: names, recent jobs, safe text."""
