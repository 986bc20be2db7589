"""stovescript turns a filmed cook's talk into a recipe draft with its evidence and its open questions."""

__version__ = "0.1.0"
