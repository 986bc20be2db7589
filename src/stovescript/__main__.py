"""`python -m stovescript`: the command line."""

from stovescript.cli import main

main()
