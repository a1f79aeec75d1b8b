"""The workshop: a job's record read into what stands now. Pure."""
