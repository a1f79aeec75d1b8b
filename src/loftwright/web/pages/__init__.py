"""One module a page, each with its router."""
