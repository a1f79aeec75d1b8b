"""A shaft on the bench: its profile, its beam, and what frequency, load and twist make of it."""
