"""`proofbay serve`: brings the history up to date and starts the web pages."""

from __future__ import annotations

import socket
from datetime import UTC, datetime
from typing import Annotated

import typer
import uvicorn

from app.commands.refusing import refuse, the_rules, the_settings
from app.problem import Refused
from app.rules.library import Rules
from app.settings import Settings

Demo = Annotated[bool, typer.Option("--demo", help="Fill an empty history with the invented demo workshop.")]
Host = Annotated[str | None, typer.Option(help="Address to listen on.", show_default="127.0.0.1")]
Port = Annotated[int | None, typer.Option(min=1, max=65535, help="Port to listen on.", show_default="8000")]


def serve_command(demo: Demo = False, host: Host = None, port: Port = None) -> None:
    """Start the web pages of the workshop."""
    settings = the_settings()
    address, number = host or settings.host, port or settings.port
    probe_port(address, number)
    rules = the_rules()  # a mistake in them is told here, not as an error page later
    prepare_history(settings, rules, demo=demo)
    typer.echo(f"Proofbay is at http://{address}:{number} (stop with Ctrl+C).")
    uvicorn.run(
        "app.web.main:create_app",
        factory=True,
        host=address,
        port=number,
        loop="uvloop",
        http="httptools",
        timeout_graceful_shutdown=1,
        log_level="warning",
    )


def probe_port(host: str, port: int) -> None:
    """Ends the program with a sentence where nobody can listen here, before the history is touched."""
    try:
        family, kind, protocol, _, address = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0]
        with socket.socket(family, kind, protocol) as probe:
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            probe.bind(address)
    except OSError as error:
        refuse([f"Nothing can listen at {host}:{port}: {error.strerror}. Choose another with --port or --host."])


def prepare_history(settings: Settings, rules: Rules, *, demo: bool) -> None:
    """Makes or migrates the database, and fills an empty one with the demo where asked for."""
    from app.history.errors import HistoryError
    from app.history.migrate import migrate

    try:
        migrate(settings.database)
        if demo:
            fill_if_empty(settings, rules)
    except HistoryError as error:
        refuse([str(error)])
    except Refused as refused:
        refuse(refused.problems)
    except OSError as error:
        refuse([f"The data folder {settings.data_dir} cannot be used: {error.strerror}. Set PROOFBAY_DATA_DIR."])


def fill_if_empty(settings: Settings, rules: Rules) -> None:
    """Files the demo workshop in a history that holds nothing yet; leaves any other as it is, and says so."""
    from app.history.engine import open_history
    from app.seed.demo import load_demo

    history = open_history(settings.database, settings.site_id)
    if history.is_new():
        load_demo(history, rules, datetime.now(UTC))
    else:
        typer.echo("There is a history already: it is shown as it is, without loading the demo again.")
