"""Ball flight, turf and impact: pure functions of SI numbers."""
