"""Every caution has a source, says what it applies to, and cannot be hidden."""

from surfacecalc.cautions import CLOSING, Caution, caution_texts, cautions, cautions_together
from surfacecalc.cautions.caution_rules import RULES


def test_nothing_is_told_of_a_piece_that_is_only_dusted_off(found):
    assert {} == found()


def test_every_caution_names_a_source_and_ends_as_a_sentence():
    written = [caution for caution in vars(caution_texts).values() if isinstance(caution, Caution)]
    assert len(RULES) == len(written)
    assert all(caution.source and caution.text.endswith(".") for caution in written)


def test_every_caution_that_applies_says_what_it_applies_to(found):
    steps = (
        'do = "strip"; product = "stripper"',
        'do = "wash"; product = "bleach"; strength = "3 %"',
        'do = "sand"; grits = [120]; with = "disc"',
        'do = "coat"; product = "oil"; coats = 1; by = "spray"',
    )
    products = {"stripper": "stripper", "bleach": "cleaner", "oil": "drying oil"}
    told = found(*steps, products=products, surface="painted", head='for = "food"')
    assert {"LEAD", "WOOD_DUST", "STRIPPER", "BLEACH", "OILY_RAGS", "SOLVENT", "SPRAY", "FOOD"} == (
        set(told)
    )
    assert all(caution.because for caution in told.values())


def test_codes_and_licensed_practice_come_first():
    assert "Local codes and licensed practice come first." == CLOSING


def test_of_several_pieces_each_caution_comes_once_and_names_them_all(job):
    dusty = job('do = "sand"; grits = [120]; with = "disc"')
    washed = job('do = "wash"; product = "soap"; strength = "3 %"', products={"soap": "cleaner"})
    together = cautions_together([dusty, washed, dusty])
    alone = {one.text for one in cautions(*dusty)} | {one.text for one in cautions(*washed)}
    assert alone == {one.text for one in together}
    assert len(alone) == len(together)
