"""The swing of a club on a shaft that bends, for differences between shafts only."""
