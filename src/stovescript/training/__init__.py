"""Rebuilds the speech model from the annotated talks; needs the `train` extra (see DEVELOPERS.md)."""
