"""Frozen values in the trade's words: shots, columns, homes."""
