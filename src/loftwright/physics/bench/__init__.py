"""From readings on the bench to what a shaft is, with what the readings did not see."""
