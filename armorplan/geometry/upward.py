"""Whether a pattern says where up is on its parts."""

from armorplan.pattern.pattern import Pattern

_UNSAID_DEG = 90.0
"""What ``up_deg`` is where nobody said it."""


def says_up(pattern: Pattern) -> bool:
    """Tell whether up is a word of the pattern: where no part says it, parts lie any way."""
    return any(part.up_deg != _UNSAID_DEG or part.drawn_from_inside for part in pattern.parts)
