"""Lists as csv and xlsx: reading what people have, writing what is taken back."""
