"""The annotated talks, as the training module reads them: `python -m tests.accuracy.corpus FILE…` checks files."""

import sys

from stovescript.training.corpus import (
    TALKS,
    CorpusError,
    Gold,
    GoldAmount,
    GoldGap,
    GoldIngredient,
    GoldSetting,
    Said,
    captions,
    main,
    read_said,
)

__all__ = [
    "TALKS",
    "CorpusError",
    "Gold",
    "GoldAmount",
    "GoldGap",
    "GoldIngredient",
    "GoldSetting",
    "Said",
    "captions",
    "main",
    "read_said",
]

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
