"""Ball flight, turf, impact, shafts and the bench: pure functions of SI numbers."""
