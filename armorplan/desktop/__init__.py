"""Qt: item models, actions, jobs, settings, and the widgets below."""
