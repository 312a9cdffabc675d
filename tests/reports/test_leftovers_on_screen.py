"""What `jars` shows of leftovers that are parts of a mix."""

import pytest
from piece_texts import piece_text

CUBE = {"shape": "board", "width": "1 m", "depth": "1 m", "height": "1 m"}
RECIPE = [{"product": "white", "parts": 3}, {"product": "green", "parts": 1}]


@pytest.fixture
def screen(run, tmp_path):
    """Return what `jars` prints: four coats of 100 ml of sage, two of white elsewhere."""

    def shown(white, green, *, white_coats=0, mixed="0 ml", spread="0 %"):
        def coat(product, coats):
            return {"do": "coat", "product": product, "coats": coats, "by": "brush", "loss": "0 %"}

        zones = [{"name": "top", "faces": ["board.top"], "surface": "sealed",
                  "step": [coat("sage", 4)]}]  # fmt: skip
        if white_coats:
            zones.append({"name": "front", "faces": ["board.front"], "surface": "sealed",
                          "step": [coat("white", white_coats)]})  # fmt: skip
        products = [
            {"name": name, "kind": "waterborne paint", "covers": "10 m2/L", "on_hand": on_hand,
             "packs": [{"size": "100 ml", "price": 5}]}
            for name, on_hand in (("white", white), ("green", green))
        ]  # fmt: skip
        spare = {"name": "spare", "kind": "waterborne paint", "on_hand": "90 ml"}
        text = piece_text(
            part=CUBE,
            zone=zones,
            product=[*products, spare],
            mix={"name": "sage", "recipe": RECIPE, "on_hand": mixed},
            workshop={"own_spread": spread},
        )
        file = tmp_path / "cube.toml"
        file.write_text(text, encoding="utf-8")
        return run("jars", file, "--unit", "metric").stdout

    return shown


def test_a_mix_of_leftovers_is_shown_from_its_jars_to_the_tin_that_is_missing(screen):
    shown = screen("350 ml", "55 ml", white_coats=2)
    found = shown[shown.index("sage*, mixed") :].splitlines()
    assert found[:5] == [
        "sage*, mixed from what you have",
        "Part   On hand  Other steps use  Whole batch needs",
        "white   350 ml           200 ml             300 ml",
        "green  55.0 ml             0 ml             100 ml",
        "By the recipe they make 200 ml; white runs out first.",
    ]
    assert found[5:8] == ["Coats      Need", "1 coat   100 ml", "2 coats  200 ml"]
    assert "Enough for the first 2 coats. Top up" in shown
    assert "No single tin more makes the whole batch of 400 ml: buy 2 packs of 100 ml of" in shown


def test_all_poured_together_is_said_to_be_another_colour(screen):
    shown = screen("600 ml", "55 ml")
    assert "Other steps" not in shown
    assert "By the recipe they make 220 ml; green runs out first." in shown
    assert "All poured together, that is 655 ml, in a different colour than the" in shown
    assert 2 == shown.count("4 coats  400 ml")
    assert "Enough for every coat, if your numbers are exact." in shown
    assert "makes the whole batch of 400 ml: 1 pack of 100 ml of green (5)." in shown


def test_a_recipe_that_cannot_be_mixed_has_no_table_of_coats(screen):
    shown = screen("600 ml", "0 ml")
    assert "By the recipe they make none of it: green is not on hand." in shown
    assert "Coats" not in shown


def test_what_is_shown_as_a_part_is_not_listed_once_more(screen):
    shown = screen("600 ml", "55 ml")
    assert "Not used in a coat, so the supply list counts it: spare, 90.0 ml." in shown
    assert "No product that a coat uses" not in shown


def test_a_spread_gives_each_batch_its_chance(screen):
    shown = screen("600 ml", "55 ml", spread="20 %")
    assert 2 == shown.count("Chance it lasts")
    assert "assumed: extra for touch-ups" in " ".join(shown.split())
    assert max(map(len, shown.splitlines())) <= 80


def test_leftovers_that_make_it_all_are_said_to(screen):
    shown = screen("600 ml", "100 ml")
    assert "That is the whole batch of 400 ml: there is nothing to buy for it." in shown
    assert "poured" not in shown
