"""The studio's pages: FastAPI, Jinja and server-sent events."""
