"""How long a treatment dries, from its catalogue times and the shop's climate."""
