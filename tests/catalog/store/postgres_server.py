"""A PostgreSQL server of the tests' own: on loopback, in a temporary folder, gone afterwards."""

import os
import shutil
import socket
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from catalog.store_rows import StoreTable
from catalog.store_version import newest_version


class PostgresServer:
    """A running server that can be stopped hard and started again."""

    def __init__(self, programs: Path, folder: Path) -> None:
        self._programs, self._folder = programs, folder
        self._count = 0
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self.port = free.getsockname()[1]

    def run(self, program: str, *arguments: str) -> None:
        command = [str(self._programs / program), *arguments]
        if os.geteuid() == 0:  # PostgreSQL refuses to run as root
            command = ["runuser", "-u", "postgres", "--", *command]
        done = subprocess.run(command, capture_output=True, text=True, cwd=self._folder, timeout=120)
        assert done.returncode == 0, f"{program} failed: {done.stdout}{done.stderr}"

    def create(self) -> None:
        self.run("initdb", "-D", str(self._folder / "data"), "-A", "trust", "-U", "bench", "-E", "UTF8", "--no-sync")

    def start(self) -> None:
        options = f"-c listen_addresses=127.0.0.1 -c port={self.port} -c unix_socket_directories= -c max_connections=40"
        log = str(self._folder / "log")
        self.run("pg_ctl", "-D", str(self._folder / "data"), "-w", "-t", "60", "-l", log, "-o", options, "start")

    def stop(self, *, how: str = "fast") -> None:
        self.run("pg_ctl", "-D", str(self._folder / "data"), "-w", "-m", how, "stop")

    def new_database(self) -> str:
        """The URL of a fresh, empty database."""
        import psycopg

        self._count += 1
        name = f"bench_{self._count}"
        where = f"postgresql://bench@127.0.0.1:{self.port}"
        with psycopg.connect(f"{where}/postgres", autocommit=True) as connection:
            connection.execute(f"CREATE DATABASE {name}".encode())
        return f"{where}/{name}"


def empty_tables(url: str) -> None:
    """Empty every table of a store but leave the tables themselves."""
    import psycopg

    tables = ", ".join(f'"{name}"' for name in StoreTable.metadata.tables)
    with psycopg.connect(url, autocommit=True) as connection:
        connection.execute(f"TRUNCATE {tables} RESTART IDENTITY".encode())
        connection.execute("UPDATE alembic_version SET version_num = %s", (newest_version(),))


def reason_without_server() -> str:
    """Why no server can be started here; "" when one can."""
    if _programs() is None:
        return "PostgreSQL is not installed here"
    if os.geteuid() == 0 and shutil.which("runuser") is None:
        return "running as root without runuser: PostgreSQL cannot be started as another user"
    return ""


def _programs() -> Path | None:
    installed = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"), key=lambda path: int(path.parts[-3]))
    if installed:
        return installed[-1].parent
    found = shutil.which("initdb")
    return Path(found).resolve().parent if found else None


@contextmanager
def running_server() -> Iterator[PostgresServer]:
    """Start a server, and stop it and throw its folder away whatever happens."""
    programs = _programs()
    assert programs is not None
    folder = Path(tempfile.mkdtemp(prefix="lineplan-postgres-"))
    try:
        if os.geteuid() == 0:
            shutil.chown(folder, "postgres", "postgres")
        server = PostgresServer(programs, folder)
        server.create()
        server.start()
        try:
            yield server
        finally:
            server.stop(how="immediate")
    finally:
        shutil.rmtree(folder, ignore_errors=True)
