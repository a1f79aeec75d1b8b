"""Reads tables and settings files in trade units into domain values."""
