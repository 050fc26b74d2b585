"""A pattern made to another size: parts by their measures, rows kept matched, edges and holes kept."""
