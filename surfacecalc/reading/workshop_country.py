"""`country` in [workshop]: a code of two letters or a name, which rules of that country go by."""

from surfacecalc.catalogue.lead_bans import BANS, ban_in
from surfacecalc.problems import is_close
from surfacecalc.reading.tables import Table

EXAMPLE = '"US", "GB" or "United Kingdom"'
LONGEST = 60
"""Letters; the longest short name of a country in ISO 3166 has 52."""


def read_country(table: Table) -> str | None:
    """Return the country as it is written; None where it is not given or is a mistake.

    Any country may be given; what is not known of it is said where it matters.
    """
    if "country" not in table:
        return None
    value = table.values["country"]
    if not isinstance(value, str) or not any(map(str.isalpha, value)) or len(value) > LONGEST:
        table.refuse("country", f"must be a country in quotes, such as {EXAMPLE}")
        return None
    country = " ".join(value.split())
    meant = None if ban_in(country) else _meant(country)
    if meant is not None:
        table.refuse("country", f'is not a country I know; did you mean "{meant}"?')
        return None
    return country


def _meant(country: str) -> str | None:
    """Return the name that a misspelt one means; codes and short names are too alike for that."""
    names = [name for ban in BANS for name in ban.spellings if len(name) > 3]
    word = country.casefold()
    return next((name for name in names if is_close(word, name.casefold())), None)
