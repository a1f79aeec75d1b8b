"""From balls to what may be said of clubs: the model, its parts, its doubts and its claims."""
