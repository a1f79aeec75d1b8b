"""The command line: one module per group of commands.

The program's matrices are small: on several linear algebra threads they take many times as long,
because the threads wait for each other, and their last digits hang on how many there are. So it
runs on one, unless the environment says otherwise. The libraries read this once, while they are
loaded, which is later than here.
"""

import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
