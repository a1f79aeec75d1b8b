"""The club as masses: what its parts come to, and what must be added to meet a target."""
