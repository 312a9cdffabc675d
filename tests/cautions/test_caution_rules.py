"""Every caution has a source, says what it applies to, and cannot be hidden."""

import re
from dataclasses import replace

from surfacecalc.cautions import CLOSING, Caution, caution_texts, cautions, cautions_together
from surfacecalc.cautions.caution_rules import RULES


def test_nothing_is_told_of_a_piece_that_is_only_dusted_off(found):
    assert {} == found()


def test_every_caution_has_a_source_and_is_whole_sentences():
    written = [caution for caution in vars(caution_texts).values() if isinstance(caution, Caution)]
    variants = 2  # sanding dust where there may be lead as well; lead where a test has found it
    assert len(RULES) == len(written) - variants
    assert all(caution.sources and all(caution.sources) for caution in written)
    assert all(caution.details.endswith(".") for caution in written)
    assert all(caution.text == f"{caution.headline} {caution.details}" for caution in written)


def test_every_headline_is_one_short_sentence_of_its_own():
    written = [caution for caution in vars(caution_texts).values() if isinstance(caution, Caution)]
    headlines = [caution.headline for caution in written]
    assert len(set(headlines)) == len(headlines)
    for headline in headlines:
        assert headline.endswith(".")
        assert "." not in headline[:-1]
        assert len(headline) <= 90


def test_what_an_owner_reads_has_no_rule_and_no_limit_in_it():
    written = [caution for caution in vars(caution_texts).values() if isinstance(caution, Caution)]
    told = [caution.in_use for caution in written if caution.in_use]
    assert len(told) == 5  # lid, tipping over twice, nursery, food
    assert not any(re.search(r"CFR|ASTM|ppm|%|\d", text) for text in told)


def test_every_caution_that_applies_says_what_it_applies_to(found):
    steps = (
        'do = "strip"; product = "stripper"',
        'do = "wash"; product = "bleach"; strength = "3 %"',
        'do = "sand"; grits = [120]; with = "disc"',
        'do = "coat"; product = "oil"; coats = 1; by = "spray"',
    )
    products = {"stripper": "stripper", "bleach": "cleaner", "oil": "drying oil"}
    told = found(*steps, products=products, surface="painted", head='for = "food"')
    assert {
        "LEAD",
        "WOOD_DUST_WITH_LEAD",
        "STRIPPER",
        "BLEACH",
        "OILY_RAGS",
        "SOLVENT",
        "SPRAY",
        "FOOD",
    } == (set(told))
    assert all(caution.applies_to for caution in told.values())


def test_codes_and_licensed_practice_come_first():
    assert "Local codes and licensed practice come first." == CLOSING


def test_of_several_pieces_each_caution_comes_once_and_names_them_all(job):
    dusty = job('do = "sand"; grits = [120]; with = "disc"')
    washed = job('do = "wash"; product = "soap"; strength = "3 %"', products={"soap": "cleaner"})
    together = cautions_together([dusty, washed, dusty])
    alone = {one.text for one in cautions(*dusty)} | {one.text for one in cautions(*washed)}
    assert alone == {one.text for one in together}
    assert len(alone) == len(together)
    (dust,) = [one for one in together if "dust" in one.text]
    assert 'Top: sanding "all"' == dust.applies_to


def test_a_caution_that_applies_to_different_things_comes_once_with_all_of_them(job):
    step = 'do = "wash"; product = "{}"; strength = "3 %"'
    jobs = [job(step.format(one), products={one: "cleaner"}) for one in ("first", "second")]
    (cleaner,) = cautions_together(jobs)
    assert "Top: first (cleaner); Top: second (cleaner)" == cleaner.applies_to


def test_pieces_are_told_apart_in_what_a_caution_applies_to(job):
    steps = 'do = "sand"; grits = [120]; with = "disc"'
    first, measured = job(steps)
    second = replace(first, settings=replace(first.settings, name="Other"))
    (dust,) = cautions_together([(first, measured), (second, measured)])
    assert 'Top: sanding "all"; Other: sanding "all"' == dust.applies_to
