"""The way back from a mistake: which steps cannot be done any more, and the cheapest way to go on.

``model`` states the neutral problem, ``checking`` is its executable statement. ``search`` and
``by_means`` find ways back: ``parting`` makes the problem small, ``opening`` searches over what is
taken back, with ``hitting`` for its bound and ``finishing`` for all that is done after; ``standing``
and ``by_solver`` answer what it cannot. ``from_build`` states the problem of a build.
"""
