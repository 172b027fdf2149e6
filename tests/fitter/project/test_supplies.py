"""What a file says of things to buy besides boards."""

from __future__ import annotations

from fractions import Fraction

import pytest

from fitter.domain.supplies import Supplies
from fitter.project import ProjectError, read_project

REST = """
title: yard
units: in
room: {{corners: {{A: [0, 0], B: [90, 0], C: [90, 70], D: [0, 70]}}}}
cushions: [{{name: seat, size: [24, 24, 5]}}]
shop: {shop}
"""


def supplies(shop: str) -> Supplies:
    return read_project("yard.yaml", REST.format(shop=shop)).shop.supplies


def test_every_key_is_read() -> None:
    said = "{prices: yard.csv, spare: 1/5, boxes: {screws: 250, nails: 500, bolts: 4, plugs: 30}, "
    said += "coats: {conditioner: 0, stain: 1, varnish: 3}, surface: rough}"
    assert supplies(said) == Supplies("yard.csv", Fraction(1, 5), 250, 500, 4, 30, 0, 1, 3, True)


@pytest.mark.parametrize("shop", ["{}", "{boxes: {}, coats: {}}", "{boxes: , coats: }"])
def test_what_is_not_said_has_its_default(shop: str) -> None:
    assert supplies(shop) == Supplies()


def test_some_said_others_not() -> None:
    assert supplies("{boxes: {bolts: 5}, spare: 0}") == Supplies(spare=Fraction(0), bolts=5)


@pytest.mark.parametrize(
    ("shop", "key", "code"),
    [
        ("{boxes: {screws: 0}}", "shop.boxes.screws", "count-out-of-range"),
        ("{boxes: {srcews: 10}}", "shop.boxes.srcews", "unknown-key"),
        ("{boxes: 100}", "shop.boxes", "wrong-kind"),
        ("{coats: {stain: 10}}", "shop.coats.stain", "count-out-of-range"),
        ("{coats: {stain: -1}}", "shop.coats.stain", "count-out-of-range"),
        ("{spare: 60 %}", "shop.spare", "share-out-of-range"),
        ("{surface: hairy}", "shop.surface", "unknown-word"),
        ("{prices: }", "shop.prices", "empty-value"),
    ],
)
def test_mistakes(shop: str, key: str, code: str) -> None:
    with pytest.raises(ProjectError) as caught:
        supplies(shop)
    assert [(finding.key, finding.code) for finding in caught.value.findings] == [(key, code)]
