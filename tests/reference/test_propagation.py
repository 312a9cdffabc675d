"""Points of uncertain needs against exact distributions.

Source: JCGM 101:2008, Evaluation of measurement data, Supplement 1 to the GUM: propagation of
distributions using a Monte Carlo method, https://www.bipm.org/documents/20126/2071204/
JCGM_101_2008_E.pdf . Its clause 9.2.3 adds four rectangular quantities of mean 0 and standard
deviation 1 and gives the interval -3.88 to 3.88 for 95 % (clause, figures and address from
memory). So the figure is confirmed here by exact convolution: the sum of four rectangular
quantities has the distribution of Irwin and Hall.
"""

import itertools
import math

import numpy as np
import pytest
from scipy import integrate, optimize, stats

from surfacecalc.model.inputs import Input
from surfacecalc.model.ranges import Factor, Range
from surfacecalc.needs.draws import DRAWS, Draws, points, triangular
from surfacecalc.needs.job import job_needs
from surfacecalc.reading.piece_file import read_piece
from surfacecalc.zones.areas import measure

PRINTED = 3.88
FOUR_KEYS = ("a", "b", "c", "d")
RANGES = [(8, 10, 14), (0.67, 0.75, 0.83), (0.25, 0.4, 0.75), (8, 8, 14), (8, 14, 14)]
SEED_TO_SEED = 3e-3
"""Of a 90 % point: for the widest range of the catalogue, in 24 seeds."""


def irwin_hall(x):
    """Return the chance that four draws between 0 and 1 add up to no more than x."""
    terms = ((-1) ** k * math.comb(4, k) * (x - k) ** 4 for k in range(math.floor(x) + 1))
    return sum(terms) / math.factorial(4)


def exact_point(share):
    """Return a point of the sum of four quantities from -sqrt(3) to sqrt(3)."""
    place = optimize.brentq(lambda x: irwin_hall(x) - share, 0, 4, xtol=1e-14)
    return math.sqrt(3) * (2 * place - 4)


def rectangular_sum(count, seed=1):
    draws = Draws(count=count, seed=seed)
    return sum(math.sqrt(3) * (2 * uniform(draws, key) - 1) for key in FOUR_KEYS)


def uniform(draws, key):
    return draws.uniform(Input("loss", by=key))


def triangle(values):
    low, likely, high = values
    return stats.triang((likely - low) / (high - low), loc=low, scale=high - low)


def drawn(values, key="x", **given):
    return Draws(**given)(Factor(Input("coverage", of=key), Range(*values), "piece file"))


def test_printed_interval_is_that_of_the_exact_convolution():
    # half of the last printed digit
    assert PRINTED == pytest.approx(exact_point(0.975), abs=0.005)
    assert -PRINTED == pytest.approx(exact_point(0.025), abs=0.005)


def test_four_rectangular_quantities_have_the_printed_interval():
    """A million draws, the size of the supplement's own run."""
    found = np.quantile(rectangular_sum(4**10), [0.025, 0.975])
    # 0.02: four standard errors of the point, sqrt(p (1 - p) / n) / density = 0.0048
    assert (-PRINTED, PRINTED) == pytest.approx(found, abs=0.02)


def test_four_rectangular_quantities_have_their_mean_and_deviation():
    found = rectangular_sum(4**10)
    # 1e-9: each of the four is stratified, so its mean is exact
    assert 0.0 == pytest.approx(found.mean(), abs=1e-9)
    # 0.004: the correlations between the four, each about 1 / sqrt(n) = 0.001, and more of them
    assert 2.0 == pytest.approx(found.std(), abs=0.004)


@pytest.mark.parametrize("values", RANGES)
def test_triangular_mean_and_variance(values):
    """(a + b + c) / 3, and (a^2 + b^2 + c^2 - ab - ac - bc) / 18 (from memory), and scipy's."""
    a, b, c = values
    mean, variance = (a + b + c) / 3, (a * a + b * b + c * c - a * b - a * c - b * c) / 18
    assert (mean, variance) == pytest.approx(triangle(values).stats("mv"), rel=1e-12)
    found = drawn(values)
    # 1e-6 and 1e-4: one draw in the middle of each of 65 536 slices
    assert mean == pytest.approx(found.mean(), rel=1e-6)
    assert variance == pytest.approx(found.var(), rel=1e-4)


@pytest.mark.parametrize("values", RANGES)
def test_triangular_points(values):
    shares = np.linspace(0.001, 0.999, 97)
    exact = triangle(values).ppf(shares)
    # 1e-12: the same closed form, written another way
    assert exact == pytest.approx(triangular(shares, Range(*values)), rel=1e-12)
    # 2e-5: a slice of 65 536
    found = triangle(values).cdf(np.quantile(drawn(values), shares))
    assert shares == pytest.approx(found, abs=2e-5)


COVERS, LOSS = (8, 10, 14), (0.25, 0.4, 0.75)


def exact_need_point(share):
    """Return a point of 1 / (covers x (1 - loss)) by integration over the loss."""
    covers, loss = triangle(COVERS), triangle(LOSS)

    def chance(need):
        def slice_of(lost):
            return covers.sf(1 / (need * (1 - lost))) * loss.pdf(lost)

        low, likely, high = LOSS
        kinks = sorted(1 - 1 / (need * edge) for edge in COVERS)
        inner = [kink for kink in kinks if low < kink < high]
        value, _ = integrate.quad(slice_of, low, high, points=[likely, *inner], epsabs=1e-10)
        return value

    return optimize.brentq(lambda need: chance(need) - share, 0.1, 0.5, xtol=1e-10)


@pytest.mark.parametrize(("share", "name"), [(0.05, "low"), (0.9, "buy_for"), (0.95, "high")])
def test_points_of_a_product_of_ranges_agree_with_integration(share, name):
    """Coverage and loss of a sprayed coat, the widest ranges of the catalogue."""
    found = []
    for seed in range(1, 21):
        draws = Draws(seed=seed)
        covers = draws(Factor(Input("coverage", of="paint"), Range(*COVERS), "label"))
        loss = draws(Factor(Input("loss", by="spray"), Range(*LOSS), "assumed"))
        found.append(getattr(points(1 / covers / (1 - loss), 0.9), name))
    # 0.13 %: three standard errors of the mean of twenty seeds, each point good to 0.18 %
    # (plain draws: sqrt(p (1 - p) / n) / density, worst at the 95 % point)
    assert exact_need_point(share) == pytest.approx(np.mean(found), rel=1.3e-3)


def test_draws_of_different_keys_are_independent():
    """No correlation, and each quarter of one meets each quarter of another alike."""
    draws = Draws()
    keys = ["product paint covers", "product paint cover", "loss by brush", "loss by spray", ""]
    for one, other in itertools.combinations(keys, 2):
        a, b = uniform(draws, one), uniform(draws, other)
        # four standard deviations of the correlation of random pairings
        assert abs(np.corrcoef(a, b)[0, 1]) < 4 / math.sqrt(DRAWS)
        table, _, _ = np.histogram2d(a, b, bins=4, range=[(0, 1), (0, 1)])
        # one in a million would be refused by chance; the pairings do not change from run to run
        assert stats.chi2_contingency(table).pvalue > 1e-6


def test_the_same_key_is_the_same_draw_in_any_run_and_order():
    first, second = Draws(), Draws()
    a, b = uniform(first, "a"), uniform(first, "b")
    assert (b == uniform(second, "b")).all()
    assert (a == uniform(second, "a")).all()


PIECE = """[piece]
name = "Shelf"
unit = "m"
"""
TABLES = [
    '[[part]]\nname = "left"\nshape = "board"\nwidth = 1\ndepth = 0.3\nheight = 0.02\n',
    '[[part]]\nname = "right"\nshape = "board"\nwidth = 1\ndepth = 0.3\nheight = 0.02\n'
    "at = [1, 0, 0]\n",
    '[[zone]]\nname = "ends"\nfaces = ["*.left", "*.right"]\nsurface = "bare"\n'
    'schedule = "finish"\n',
    '[[zone]]\nname = "rest"\nfaces = ["*"]\nsurface = "sealed"\nschedule = "finish"\n',
    '[[schedule.finish]]\ndo = "sand"\ngrits = [120, 180]\nwith = "disc"\n'
    '[[schedule.finish]]\ndo = "coat"\nproduct = "stain"\ncoats = 1\nby = "cloth"\n'
    '[[schedule.finish]]\ndo = "coat"\nproduct = "varnish"\ncoats = [2, 2, 3]\nby = "spray"\n',
    '[[product]]\nname = "stain"\nkind = "stain"\n',
    '[[product]]\nname = "varnish"\nkind = "varnish"\n',
    '[[abrasive]]\nname = "disc"\nform = "125 mm disc"\n',
]


def needs_of(path, tables):
    path.write_text(PIECE + "".join(tables))
    piece, problems = read_piece(path)
    assert [] == problems
    assert piece is not None
    needs = job_needs(piece, measure(piece), Draws())
    return {(need.name, need.grit): points(need.drawn, 0.9) for need in needs}


@pytest.mark.parametrize("turn", range(1, len(TABLES)))
def test_order_of_the_file_changes_no_point(tmp_path, turn):
    path = tmp_path / "piece.toml"
    expected = needs_of(path, TABLES)
    turned = TABLES[turn:] + TABLES[:turn]
    for key, need in needs_of(path, turned[::-1]).items():
        # 1e-12: sums in another order
        assert vars(expected[key]) == pytest.approx(vars(need), rel=1e-12)
    assert 4 == len(expected)


@pytest.mark.parametrize(
    ("loss", "most"),
    [((0.1, 0.1, 0.1), 1e-3), ((0.1, 0.2, 0.3), 2e-3), ((0.25, 0.4, 0.75), SEED_TO_SEED)],
    ids=["brush", "half as wide", "spray"],
)
def test_90_per_cent_point_is_steady_from_seed_to_seed(loss, most):
    """Coverage, first coat and loss of three coats of paint, as the catalogue has them."""
    ranges = {"covers": (8, 10, 12), "first": (0.67, 0.75, 0.83)}
    found = []
    for seed in range(1, 25):
        draws = Draws(seed=seed)
        covers, first = (
            triangular(uniform(draws, k), Range(*ranges[k])) for k in ("covers", "first")
        )
        lost = loss[0] if loss[0] == loss[2] else triangular(uniform(draws, "loss"), Range(*loss))
        found.append(np.quantile((1 / first + 2) / covers / (1 - lost), 0.9))
    assert 24 == np.unique(found).size
    assert np.abs(found / np.mean(found) - 1).max() < most
