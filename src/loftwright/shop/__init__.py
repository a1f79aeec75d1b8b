"""The shop record: sums over many fittings, and what they teach."""
