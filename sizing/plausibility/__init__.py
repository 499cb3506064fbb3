"""Do I believe it? Ranges of single values, relations between several."""
