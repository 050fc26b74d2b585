"""The one adapter to the solver, which runs in a worker process of its own."""
