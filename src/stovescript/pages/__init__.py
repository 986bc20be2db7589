"""What is written from a draft."""
