"""Many talks at once: every talk under a folder drafted, and an index of what is still missing."""
