"""Reach: which tool still gets to which joint while what around it is being closed."""
