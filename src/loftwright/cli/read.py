"""`loftwright read`: from a file of shots to a decision."""

import typer


def register(app: typer.Typer) -> None:
    """Add the command."""
