"""Measurements of speed, one module a subject; `python -m bench` runs them all.

On one core, as the program runs; the libraries read this while they are loaded.
"""

import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
