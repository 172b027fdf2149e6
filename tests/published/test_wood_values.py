"""Sizes, moisture and movement of wood against published and computed numbers; each test names its document."""

from __future__ import annotations

from fractions import Fraction

import pytest

from fitter.domain.evidence import Status
from fitter.domain.moisture import change_coefficient, equilibrium, movement
from fitter.domain.sections import NOMINAL, dressed, size_source
from fitter.domain.species import PSI_PER_MPA, SPECIES, species
from rooms.lengths import Unit

FROM_TABLE = 1e-5
"""Coefficients are printed to five decimals."""


@pytest.mark.parametrize("name", [name for name in NOMINAL if name[0] in "234"])
def test_dimension_lumber_follows_the_rule(name: str) -> None:
    """PS 20, NDS Supplement, Table 1A: nominal less 1/2 in, widths from 8 in less 3/4 in; mm are the nearest whole."""
    thick, wide = (int(side) for side in name.split("x"))
    inch, metric = dressed(name, Unit.IN), dressed(name, Unit.MM)
    assert inch is not None
    assert metric is not None
    assert inch.thickness.inch == thick - Fraction(1, 2)
    assert inch.width.inch == wide - (Fraction(3, 4) if wide >= 8 else Fraction(1, 2))
    assert (metric.thickness, metric.width) == (
        inch.thickness.round_to(Unit.MM.mark),
        inch.width.round_to(Unit.MM.mark),
    )


@pytest.mark.parametrize(
    ("name", "thickness", "width"),
    [
        ("1x4", "3/4", "7/2"),
        ("1x6", "3/4", "11/2"),
        ("1x8", "3/4", "29/4"),
        ("5/4x6", "1", "11/2"),
        ("6x6", "11/2", "11/2"),
    ],
)
def test_boards_and_timbers(name: str, thickness: str, width: str) -> None:
    """Retail size charts; the green size of timbers (PS 20: 1/2 in under)."""
    section = dressed(name, Unit.IN)
    assert section is not None
    assert (section.thickness.inch, section.width.inch) == (Fraction(thickness), Fraction(width))


def test_metric_lumber_is_known_by_its_size_in_either_system() -> None:
    """CLS: 38 x 64 and 38 x 89 mm (trade pages); it is the same stick in a file in inches."""
    for unit in Unit:
        section = dressed("38x89", unit)
        assert section is not None
        assert (section.name, section.thickness.mm, section.width.mm) == ("38 x 89 mm", 38, 89)
    for name in (*NOMINAL, "38 x 64 mm"):
        assert size_source(name) is not None
    assert size_source("44 x 97 mm") is None


def test_movement_of_a_published_example() -> None:
    """Published on a flooring trade page: C = 0.00129, 5 in wide, from 6 to 9 %: 0.019 in."""
    assert movement(5, 0.00129, 6, 9) == pytest.approx(0.01935, abs=1e-9)
    assert movement(5, 0.00129, 9, 6) == pytest.approx(-0.01935, abs=1e-9)


@pytest.mark.parametrize(("before", "after"), [(5.9, 9), (6, 14.1)])
def test_movement_keeps_to_its_range(before: float, after: float) -> None:
    """Wood Handbook, ch. 13: from 6 to 14 %."""
    with pytest.raises(ValueError, match="holds from 6 to 14 %"):
        movement(5, 0.00129, before, after)


@pytest.mark.parametrize(
    ("shrinkage", "tabulated"),
    [
        (7.1, 0.00248),  # black cherry, tangential: Wood Handbook, Table 13-5 (its shrinkage, Table 4-3, from memory)
        (3.7, 0.00126),  # black cherry, radial
        (7.8, 0.00274),  # black walnut, tangential
        (5.5, 0.00190),  # black walnut, radial
        (7.6, 0.00267),  # coast Douglas-fir, tangential: flooring trade chart, and Table 4-3
    ],
)
def test_coefficients_follow_from_shrinkage(shrinkage: float, tabulated: float) -> None:
    """Tabulated coefficients are those of the general formula at 10 %."""
    assert change_coefficient(shrinkage) == pytest.approx(tabulated, abs=FROM_TABLE)


@pytest.mark.parametrize(
    ("celsius", "humidity", "content", "within"),
    [
        (60.0, 0.55, 8.37, 0.01),  # computed from FPL-RN-0268
        (60.0, 0.55, 8.0, 0.5),  # as tabulated in the handbook, printed in an encyclopaedia
        ((70 - 32) / 1.8, 0.30, 6.2, 0.1),  # handbook table, from memory
        ((70 - 32) / 1.8, 0.50, 9.2, 0.1),
        ((70 - 32) / 1.8, 0.65, 12.0, 0.1),
        ((70 - 32) / 1.8, 0.80, 16.0, 0.1),
        ((70 - 32) / 1.8, 0.60, 11.1, 0.2),  # stoves.bioenergylists.org
        (20.0, 0.0, 0.0, 1e-12),
    ],
)
def test_moisture_that_wood_comes_to(celsius: float, humidity: float, content: float, within: float) -> None:
    """Simpson 1998, FPL-RN-0268."""
    assert equilibrium(celsius, humidity) == pytest.approx(content, abs=within)


def test_humidity_is_a_share() -> None:
    """Sixty per cent is 0.6."""
    with pytest.raises(ValueError, match="60"):
        equilibrium(20, 60)


@pytest.mark.parametrize(
    ("name", "gravity", "radial", "tangential"),
    [
        ("Douglas-fir", 0.48, 4.8, 7.6),
        ("western redcedar", 0.32, 2.4, 5.0),
        ("white oak", 0.68, 5.6, 10.5),
        ("grand fir", 0.39, 3.4, 7.5),
        ("incense-cedar", 0.37, 3.3, 5.2),
    ],
)
def test_woods(name: str, gravity: float, radial: float, tangential: float) -> None:
    """Wood Handbook, Table 4-3 (shrinkage); density at 12 % is the specific gravity x 1.12 x 1000 kg/m3."""
    wood = species(name)
    assert wood.radial is not None
    assert wood.tangential is not None
    assert (wood.gravity.value, wood.radial.value, wood.tangential.value) == (gravity, radial, tangential)
    assert wood.radial.source.status is Status.VERIFIED
    assert wood.density == pytest.approx(1120 * gravity)


@pytest.mark.parametrize(
    ("name", "bending", "elasticity", "gravity"),
    [
        ("Douglas-fir", 900, 1.6e6, 0.50),
        ("western hemlock", 850, 1.3e6, 0.43),
        ("white spruce", 875, 1.4e6, 0.42),
        ("western redcedar", 700, 1.0e6, 0.36),
    ],
)
def test_design_values(name: str, bending: float, elasticity: float, gravity: float) -> None:
    """NDS Supplement 2018, Table 4A, No. 2; NDS 2018, Table 12.3.3A (western cedars: from memory but for G)."""
    design = species(name).design
    assert design is not None
    ((_, figure),) = design.bending
    assert (figure.value, design.elasticity.value, design.gravity.value) == (bending, elasticity, gravity)


def test_design_values_of_southern_pine_are_sized() -> None:
    """SFPA guide in MPa; the pounds that the American table has for 4 to 12 in are 1100, 1000, 925, 800 and 750."""
    design = species("southern pine").design
    assert design is not None
    assert [wide for wide, _ in design.bending] == [4, 6, 8, 10, 12]
    for (_, figure), printed in zip(design.bending, (1100, 1000, 925, 800, 750), strict=True):
        # The guide rounds to 0.1 MPa.
        assert figure.value == pytest.approx(printed, abs=0.06 * PSI_PER_MPA)


def test_every_number_says_where_it_is_from() -> None:
    """No wood has a figure without a document or a status, and every one asks for fasteners that last."""
    for name in SPECIES:
        wood = species(name)
        figures = [wood.gravity, wood.bending, wood.elasticity, wood.radial, wood.tangential, *wood.coefficients]
        assert all(figure.source.says for figure in figures if figure is not None)
        assert "stainless" in wood.fasteners
    assert "galvanised" not in species("redwood").fasteners.partition(":")[0]
