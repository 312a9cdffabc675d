"""What the work needs and the file does not list: each thing for its step, and nothing listed."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from piece_texts import measured, piece_text

from surfacecalc import api
from surfacecalc.gear import protection, tools
from surfacecalc.gear.needed_too import NeededToo

Keys = dict[str, Any]
DISC = {"name": "disc", "form": "125 mm disc"}
SAND = {"do": "sand", "grits": [120], "with": "disc"}


def coat(product: str = "x", by: str = "brush", **more: Any) -> Keys:
    return {"do": "coat", "product": product, "coats": 1, "by": by, **more}


def needed(*steps: Keys, kinds: dict[str, str] | None = None, **tables: Any) -> list[NeededToo]:
    """Return what is needed for steps on a board of bare wood, with products of some kinds."""
    products = [{"name": name, "kind": kind} for name, kind in (kinds or {}).items()]
    products += tables.pop("product", [])
    text = piece_text(*steps, product=products, abrasive=DISC, **tables)
    return api.needed_too(measured(text))


def names(*steps: Keys, **given: Any) -> set[str]:
    return {one.name for one in needed(*steps, **given)}


@pytest.mark.parametrize(
    ("step", "kind", "expected"),
    [
        (coat(), "waterborne paint", {tools.WATER_BRUSH}),
        (coat(), "oil varnish", {tools.OIL_BRUSH, protection.VAPOUR, protection.METAL_CAN}),
        (coat(), "shellac", {tools.OIL_BRUSH, protection.VAPOUR}),
        (coat(by="roller"), "waterborne paint", {tools.SLEEVE, tools.TRAY}),
        (coat(by="spray"), "waterborne paint", {tools.STRAINER, protection.MIST}),
        (coat(by="cloth"), "paste wax", {tools.CLOTHS}),
        (coat(thin="10 %"), "waterborne paint", {tools.WATER_BRUSH, tools.CUPS}),
        (
            {"do": "strip", "product": "x"},
            "solvent stripper",
            {
                tools.OLD_BRUSH,
                tools.SCRAPER,
                protection.VAPOUR,
                protection.GLOVES,
                protection.GOGGLES,
            },
        ),
        ({"do": "dust off"}, "paint", {tools.CLOTHS}),
        (SAND, "paint", {protection.PARTICLES}),
        (
            {"do": "wash", "product": "x", "strength": "3 %"},
            "alkaline cleaner",
            {protection.GLOVES, protection.GOGGLES},
        ),
    ],
)
def test_each_step_asks_for_what_it_is_worked_with(step, kind, expected):
    assert {gear.name for gear in expected} == names(step, kinds={"x": kind})


FILL = {
    "do": "fill",
    "product": "x",
    "pits": [{"count": 3, "diameter": 5, "depth": 3}],
    "hardener": {"product": "cream", "share": "2 %"},
}


def test_two_part_filler_asks_for_knife_cups_goggles_gloves_and_cartridges():
    filler = {"name": "x", "kind": "two-part filler", "density": "1.8 kg/L"}
    cream = {"name": "cream", "kind": "hardener", "density": "1.1 kg/L"}
    expected = {tools.KNIFE, tools.CUPS, protection.GLOVES, protection.GOGGLES, protection.VAPOUR}
    assert {gear.name for gear in expected} == names(FILL, product=[filler, cream])


def test_a_mix_is_stirred_and_a_tint_as_well():
    kinds = {"x": "waterborne paint", "y": "waterborne paint"}
    mix = {"name": "m", "recipe": [{"product": "x", "parts": 1}, {"product": "y", "parts": 2}]}
    assert tools.CUPS.name in names(coat("m"), kinds=kinds, mix=mix)
    assert tools.CUPS.name in names(
        coat(tint={"product": "t", "share": "3 %"}), kinds={**kinds, "t": "tint"}
    )
    assert tools.CUPS.name not in names(coat(), kinds=kinds)


OLD = {"surface": "painted"}


def test_old_paint_asks_for_a_test_a_finer_respirator_and_a_vacuum():
    found = names(SAND, zone=OLD, piece={"built": "unknown"})
    lead = {protection.LEAD_TEST, protection.LEAD_PARTICLES, protection.VACUUM}
    assert {gear.name for gear in lead} == found
    cleared = names(SAND, zone=OLD, piece={"built": "unknown", "lead": "none found"})
    assert {protection.PARTICLES.name} == cleared
    known = names(SAND, zone=OLD, piece={"built": "unknown", "lead": "found"})
    assert {protection.LEAD_PARTICLES.name, protection.VACUUM.name} == known


def test_what_stands_in_for_another_takes_over_what_that_is_for():
    (cartridges,) = [
        one
        for one in needed(
            coat(by="spray"), coat("y"), kinds={"x": "waterborne paint", "y": "oil varnish"}
        )
        if "cartridges" in one.name
    ]
    assert protection.MIST.name == cartridges.name
    assert ("x (waterborne paint)", "y (oil varnish)") == cartridges.uses


def test_a_product_that_two_cautions_name_is_there_once():
    """Thinner and lacquer are in the caution on vapour, sprayed lacquer in that on mist as well."""
    lacquer = {"name": "x", "kind": "lacquer", "thinner": "spirit"}
    spirit = {"name": "spirit", "kind": "thinner"}
    found = needed(coat(by="spray", thin="10 %"), product=[lacquer, spirit])
    (cartridges,) = [one for one in found if protection.MIST.name == one.name]
    assert ["spirit (thinner)", "x (lacquer)"] == sorted(cartridges.uses)


def test_sprayed_isocyanate_asks_for_supplied_air_and_for_no_cartridge():
    found = names(coat(by="spray"), kinds={"x": "two-part polyurethane"})
    assert protection.SUPPLIED_AIR.name in found
    assert not [name for name in found if "cartridge" in name]
    brushed = names(coat(), kinds={"x": "two-part polyurethane"})
    assert protection.SUPPLIED_AIR.name not in brushed
    assert {protection.GLOVES.name, protection.GOGGLES.name} <= brushed


def test_conversion_finish_asks_for_cartridges_against_formaldehyde():
    assert protection.FORMALDEHYDE.name in names(coat(), kinds={"x": "conversion varnish"})


@pytest.mark.parametrize(
    ("gear", "listed"),
    [
        (protection.PARTICLES, "N95 respirators"),
        (protection.PARTICLES, "P100 respirator"),
        (protection.VAPOUR, "respirator cartridges"),
        (protection.METAL_CAN, "rag can"),
        (tools.OIL_BRUSH, "2 in brush"),
    ],
)
def test_what_a_step_lists_is_not_proposed(gear, listed):
    steps = (SAND, coat())
    kinds = {"x": "oil varnish"}
    assert gear.name in names(*steps, kinds=kinds)
    lists = {"name": listed, "lasts": "3 jobs"}
    with_it = ({**SAND, "uses": [listed]}, coat())
    # what a record has is proposed under its own name
    assert {gear.name, listed}.isdisjoint(names(*with_it, kinds=kinds, consumable=lists))


def test_a_dust_mask_does_not_stand_in_for_a_respirator():
    lists = {"name": "dust masks", "lasts": "3 jobs"}
    found = names({**SAND, "uses": ["dust masks"]}, consumable=lists)
    assert protection.PARTICLES.name in found
    n95 = {"name": "N95", "lasts": "3 jobs"}
    old = names({**SAND, "uses": ["N95"]}, consumable=n95, zone=OLD, piece={"built": 1950})
    assert protection.LEAD_PARTICLES.name in old


@pytest.fixture
def beside(tmp_path: Path) -> Callable[[str], list[NeededToo]]:
    """Return what a sanded board needs with a file of the user's own beside its file."""

    def run(own: str) -> list[NeededToo]:
        (tmp_path / "surfacecalc-products.toml").write_text(own)
        return api.needed_too(measured(piece_text(SAND, abrasive=DISC), str(tmp_path)))

    return run


OWN = '[[consumable]]\nname = "N95 masks"\nlasts = "3 jobs"\n'


def test_price_and_stock_come_from_the_record_that_is_kept(beside):
    packs = "packs = [{ count = 20, price = 21 }, { count = 2, price = 3.5 }]\n"
    (one,) = beside(OWN + packs)
    assert ("N95 masks", 0) == (one.name, one.on_hand)
    assert one.pack is not None
    assert (2, "3.5") == (one.pack.size, str(one.pack.price))
    (there,) = beside(f"{OWN}on_hand = 4\n")
    assert (4, None) == (there.on_hand, there.pack)
    (other,) = beside(OWN.replace("N95 masks", "ear plugs"))
    assert (protection.PARTICLES.name, None, 0) == (other.name, other.pack, other.on_hand)


def test_several_pieces_need_each_thing_once():
    text = piece_text(coat(), product={"name": "x", "kind": "waterborne paint"})
    other = piece_text(coat("y"), product={"name": "y", "kind": "waterborne paint"})
    (one,) = api.needed_too(measured(text), measured(other))
    assert (tools.WATER_BRUSH.name, ("x", "y")) == (one.name, one.uses)


def test_every_caution_that_names_something_to_wear_asks_for_it():
    from surfacecalc.cautions import Caution, caution_texts

    worn = ("respirator", "gloves", "goggles", "cartridges")
    for caution in vars(caution_texts).values():
        if isinstance(caution, Caution) and any(word in caution.text for word in worn):
            asked = " ".join(gear.name for gear in protection.ASKED_FOR[caution.headline])
            for word in ("gloves", "goggles"):
                assert (word in caution.text) == (word in asked), caution.headline


def together(*texts: str) -> dict[str, tuple[str, ...]]:
    return {one.name: one.uses for one in api.needed_too(*map(measured, texts))}


def test_what_one_piece_lists_is_there_for_the_others():
    soap = {"name": "soap", "kind": "alkaline cleaner"}
    wash = {"do": "wash", "product": "soap", "strength": "3 %"}
    gloved = piece_text(
        {**wash, "uses": ["gloves"]},
        product=soap,
        consumable={"name": "gloves", "lasts": "1 session"},
    )
    bare = piece_text(wash, product=soap)
    assert protection.GLOVES.name in together(bare)
    assert {protection.GLOVES.name, "gloves"}.isdisjoint(together(gloved, bare))
    assert {protection.GLOVES.name, "gloves"}.isdisjoint(together(bare, gloved))
    assert ("soap (alkaline cleaner)",) == together(gloved, bare)[protection.GOGGLES.name]


def test_the_finer_respirator_of_one_piece_does_for_the_others():
    new = piece_text(SAND, abrasive=DISC)
    old = piece_text(SAND, abrasive=DISC, zone=OLD, piece={"built": "unknown"})
    assert protection.PARTICLES.name in together(new)
    found = together(new, old)
    assert protection.PARTICLES.name not in found
    assert {'sanding "all"', "the old finish"} == set(found[protection.LEAD_PARTICLES.name])


def test_filler_on_old_paint_asks_for_the_one_respirator_that_stops_lead_as_well():
    putty = {"name": "x", "kind": "wood filler", "density": "1.6 kg/L"}
    fill = {key: value for key, value in FILL.items() if key != "hardener"}
    found = needed(fill, SAND, product=[putty], zone=OLD, piece={"built": "unknown"})
    masks = [one for one in found if "particle" in one.name]
    assert [protection.LEAD_PARTICLES.name] == [one.name for one in masks]
    assert ("the old finish", "sanding filler") == masks[0].uses
    assert tools.KNIFE.name in {one.name for one in found}
    assert tools.CUPS.name not in {one.name for one in found}


def test_what_is_worn_is_told_from_what_is_worked_with():
    found = needed(SAND, coat(), kinds={"x": "oil varnish"})
    assert {one.name for one in found if one.is_worn} == {
        protection.PARTICLES.name,
        protection.VAPOUR.name,
    }
    assert {one.name for one in found if not one.is_worn} == {
        tools.OIL_BRUSH.name,
        protection.METAL_CAN.name,
    }


@pytest.mark.parametrize(
    ("strip_uses", "coat_uses", "needs_gloves"),
    [(["gloves"], ["rags"], False), (["gloves"], ["gloves"], False),
     (["gloves", "rags"], ["rags"], False), (["rags"], ["gloves"], True)],
)  # fmt: skip
def test_only_gloves_of_its_own_step_are_there_for_a_stripper(strip_uses, coat_uses, needs_gloves):
    strip = {"do": "strip", "product": "x", "uses": strip_uses}
    lists = [{"name": name, "lasts": "3 jobs"} for name in ("gloves", "rags")]
    kinds = {"x": "solvent stripper", "y": "waterborne paint"}
    found = names(strip, coat("y", uses=coat_uses), kinds=kinds, consumable=lists)
    assert needs_gloves == ("gloves" in found)
