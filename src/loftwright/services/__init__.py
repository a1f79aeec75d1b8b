"""The use cases: where edges and computing meet."""
