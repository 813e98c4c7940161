"""Line voltage: boxes, circuits, loads, protection, and studs bored for it."""
