"""The studio's memory: SQLAlchemy Core over SQLite, written once and appended to."""
