"""Speed and memory, measured and printed; never asserted in a test."""
