"""Which seams are on pins together: the fewest rounds of a dry fit, and the order of its pins."""
