"""Lists as csv: reading what people have, writing what is taken back."""
