"""How far two colours stand apart."""


def contrast(one: str, other: str) -> float:
    """Ratio of WCAG 2.2, success criterion 1.4.3."""

    def light(colour: str) -> float:
        parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
        linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    brighter, darker = sorted((light(one), light(other)), reverse=True)
    return (brighter + 0.05) / (darker + 0.05)
