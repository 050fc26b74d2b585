"""The session and its use cases: rows for views, no Qt."""
