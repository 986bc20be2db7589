"""A way to run the command line, as its own tests have it."""

from tests.cli.conftest import stove

__all__ = ["stove"]
