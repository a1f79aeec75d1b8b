"""The options of every command, as the command line itself has them."""

import typer.main

from loftwright.cli.app import app


def options_of_commands() -> dict[str, set[str]]:
    """Return the long options of every command, as typed after the name of the program."""
    found: dict[str, set[str]] = {}

    def walk(command: object, name: str) -> None:
        inner = getattr(command, "commands", None)
        if inner is not None:
            for word, one in inner.items():
                walk(one, f"{name} {word}".strip())
            return
        options = {
            option
            for parameter in getattr(command, "params", ())
            for option in parameter.opts
            if option.startswith("--")
        }
        found[name] = options - {"--help"}

    walk(typer.main.get_command(app), "")
    return found
