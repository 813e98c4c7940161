"""What was not done by the program: edits of the file, pictures that are gone, a damaged history; and the ways out."""
