"""A pattern made for other measures: parts scaled along and around, rows of holes kept matched."""
