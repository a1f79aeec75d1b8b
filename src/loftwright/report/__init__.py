"""Says results in words, keys, pictures and on paper."""
