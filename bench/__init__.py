"""Measurements of speed, one module a subject; `python -m bench` runs them all."""
