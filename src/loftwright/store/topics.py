"""What those who watch a studio can be told of."""

from typing import Final

FITTING: Final = "fitting:"
"""Begins the topic of a fitting's record; its revision is the record's last sequence."""
JOB: Final = "job:"
"""Begins the topic of a job's record."""
BAY: Final = "bay:"
"""Begins the topic of who hits in a bay; its revision is the version of that."""
RACK: Final = "rack"
"""The topic of where parts are; its revision is the number of the newest move."""
RECORD: Final = "shop record:"
"""Begins the topic of what a fitting leaves in the shop record; its revision says nothing."""
DEVICES: Final = "devices"
"""The topic of who is let in and what is locked; its revision says nothing."""
ERASED: Final = "erased"
"""The topic of golfers who were erased: whoever keeps anything of a fitting in mind drops it."""
