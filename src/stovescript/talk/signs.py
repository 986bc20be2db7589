"""Signs that look like others on the screen, by their Unicode names."""

LONG_DASHES = "\N{EN DASH}\N{EM DASH}"
DASHES = "-" + LONG_DASHES  # in a character class the hyphen must stay first or last
APOSTROPHE = "\N{RIGHT SINGLE QUOTATION MARK}"
QUOTES = "\"'\N{LEFT DOUBLE QUOTATION MARK}\N{RIGHT DOUBLE QUOTATION MARK}\N{LEFT SINGLE QUOTATION MARK}" + APOSTROPHE
