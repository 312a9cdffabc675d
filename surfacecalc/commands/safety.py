"""The command that shows the cautions in full."""

import typer

from surfacecalc.commands.options import Files, Json, all_measured_or_stop


def safety(files: Files, json: Json = False) -> None:
    """Show how to work safely: every caution, with its reason.

    With more than one file: one list for all pieces.

    Example: surfacecalc safety examples/writing-table.toml
    """
    from surfacecalc import api
    from surfacecalc.reports.safety_screen import print_cautions, safety_json
    from surfacecalc.reports.screen import console

    jobs = all_measured_or_stop(files, json=json)
    found = api.cautions(*jobs)
    names = [job.piece.settings.name for job in jobs]
    if json:
        typer.echo(safety_json(names, found))
    else:
        print_cautions(console(), " + ".join(names), found)
