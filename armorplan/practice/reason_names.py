"""What reasons are called that no rule of the order stands behind, by the codes results keep."""

POST_LENGTH = "post-length"
CLAMPS_OR_TURNS = "fastener-motion"
HOLE_WIDTH = "fastener-hole"
CARRIES = "fastener-load"
OPENS_AGAIN = "fastener-opens"

REASON_NAMES: dict[str, str] = {
    POST_LENGTH: "The post for the stack",
    CLAMPS_OR_TURNS: "What moves is not clamped, what is fixed has no play",
    HOLE_WIDTH: "The fastener for the hole",
    CARRIES: "What carries weight is not held by light rivets",
    OPENS_AGAIN: "What opens again is not riveted",
}
"""By code, in a few words for lists. Never reused, as the codes of rules are not."""
