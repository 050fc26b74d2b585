"""Numbers of bends as a maker reads them: to a tenth of a millimetre or degree."""


def tenths(value: float) -> str:
    """Return a number to a tenth, without an idle nought: ``78.2``, ``30``."""
    return f"{round(value, 1):.12g}"
