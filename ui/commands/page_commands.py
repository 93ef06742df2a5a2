"""The commands that open the page, and their options."""

from typing import Annotated

import typer

from ui.commands.options import BareOption, PageCatalogOption
from ui.shared.store_place import STORE_VARIABLE

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
        app.command()(command)


def page(
    port: PortOption = None,
    catalog: PageCatalogOption = None,
    bare: BareOption = False,
    store: PageStoreOption = "",
    lan: LanOption = False,
    address: AddressOption = "",
    new_passphrase: NewPassphraseOption = False,
) -> None:
    """Open the page on this machine, or with --lan in the workshop's network."""
    from ui.commands.page import PageQuestion, run_page

    question = PageQuestion(
        port=port,
        catalog=catalog,
        is_bare=bare,
        store=store,
        is_lan=lan,
        address=address,
        changes_passphrase=new_passphrase,
    )
    raise typer.Exit(run_page(question))


def demo(
    job: Annotated[str, typer.Argument(help="Name of a demo job; 'list' names them all.")] = "trail-rear-brake",
    page: Annotated[bool, typer.Option("--page/--no-page", help="Open the page afterwards.")] = True,
    port: PortOption = None,
    catalog: PageCatalogOption = None,
    bare: BareOption = False,
    store: PageStoreOption = "",
    lan: LanOption = False,
    address: AddressOption = "",
    new_passphrase: NewPassphraseOption = False,
) -> None:
    """Plan an invented job, then open the page."""
    from ui.commands.demo import run_demo
    from ui.commands.page import PageQuestion

    question = PageQuestion(
        port=port,
        catalog=catalog,
        is_bare=bare,
        store=store,
        is_lan=lan,
        address=address,
        changes_passphrase=new_passphrase,
    )
    raise typer.Exit(run_demo(job, question if page else None))
