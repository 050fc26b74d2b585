"""Where numbers come from that no publication gives, in the same words everywhere."""

MEASURED = "measured on the drawing"
COMPUTED = "computed from the outlines"
CIRCLE = "circle geometry"
KABSCH = "least squares: Kabsch 1976, in the plane"
