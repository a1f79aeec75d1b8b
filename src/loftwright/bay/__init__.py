"""A fitting as its record tells it: shots and corrections replayed into what stands now."""
