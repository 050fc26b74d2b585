"""The way back from a mistake: which steps cannot be done any more, and the cheapest way to go on.

``model`` states the neutral problem, ``checking`` is its executable statement.
"""
