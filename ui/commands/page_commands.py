"""The commands that open the page, and their options."""

import inspect
from collections.abc import Callable
from typing import TYPE_CHECKING, Annotated, Any

import typer

from ui.commands.options import BareOption, PageCatalogOption
from ui.shared.store_place import STORE_VARIABLE

if TYPE_CHECKING:
    from ui.commands.page import PageQuestion

PageStoreOption = Annotated[
    str,
    typer.Option(
        "--store",
        envvar=STORE_VARIABLE,
        help="Where the page keeps what is typed. [a store in the working folder, else one among your own data]",
    ),
]
PortOption = Annotated[int | None, typer.Option(help="Port to listen at. [first free one from 8501]")]
LanOption = Annotated[bool, typer.Option("--lan", help="Open it to the workshop's network, behind a passphrase.")]
AddressOption = Annotated[
    str, typer.Option("--address", help="With --lan: this machine's address in that network. [found]")
]
NewPassphraseOption = Annotated[
    bool, typer.Option("--new-passphrase", help="With --lan: ask for a new passphrase; older logins end.")
]


def add_page_commands(app: typer.Typer) -> None:
    """Give a program the commands of this file."""
    for command in (page, demo):
        app.command()(_with_page_options(command))


def _how_to_serve(
    port: PortOption = None,
    catalog: PageCatalogOption = None,
    bare: BareOption = False,
    store: PageStoreOption = "",
    lan: LanOption = False,
    address: AddressOption = "",
    new_passphrase: NewPassphraseOption = False,
) -> "PageQuestion":
    """How the page is to be served, from the options that every command has which opens it."""
    from ui.commands.page import PageQuestion

    return PageQuestion(
        port=port,
        catalog=catalog,
        is_bare=bare,
        store=store,
        is_lan=lan,
        address=address,
        changes_passphrase=new_passphrase,
    )


def _with_page_options(command: Callable[..., None]) -> Callable[..., None]:
    """A command that is handed how the page is to be served, with the options that say so after its own."""
    asked = inspect.signature(_how_to_serve).parameters
    own = [one for name, one in inspect.signature(command).parameters.items() if name != "how"]

    def run(**given: Any) -> None:
        how = _how_to_serve(**{name: given.pop(name) for name in asked})
        command(how=how, **given)

    options = [*own, *asked.values()]
    run.__name__, run.__doc__ = command.__name__, command.__doc__
    run.__annotations__ = {one.name: one.annotation for one in options}
    vars(run)["__signature__"] = inspect.Signature(options)  # what Typer reads the options from
    return run


def page(how: "PageQuestion") -> None:
    """Open the page on this machine, or with --lan in the workshop's network."""
    from ui.commands.page import run_page

    raise typer.Exit(run_page(how))


def demo(
    how: "PageQuestion",
    job: Annotated[str, typer.Argument(help="Name of a demo job; 'list' names them all.")] = "trail-rear-brake",
    page: Annotated[bool, typer.Option("--page/--no-page", help="Open the page afterwards.")] = True,
) -> None:
    """Plan an invented job, then open the page."""
    from ui.commands.demo import run_demo

    raise typer.Exit(run_demo(job, how if page else None))
