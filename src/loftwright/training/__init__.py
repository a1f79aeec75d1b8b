"""A virtual golfer with hidden truth."""
