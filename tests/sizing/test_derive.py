"""The parameters in the files are those that the published tables give."""

import csv
import math

import pytest

import sizing.tables as tables
from sizing.body import ORDER
from sizing.derive import kernels, threshold


@pytest.fixture(scope="module")
def written() -> list[list[str]]:
    return list(csv.reader(tables.text("body.csv").splitlines()))


def test_the_kernels_in_the_file_are_those_of_the_tables(written: list[list[str]]) -> None:
    size = len(ORDER)
    pairs = [(i, j) for i in range(size) for j in range(i + 1)]
    derived = [
        (kernel.breed, [kernel.share, *kernel.mean, *(kernel.covariance[i][j] for i, j in pairs)])
        for kernel in kernels()
    ]

    assert [line[0] for line in written[1:]] == [breed for breed, _ in derived]
    for line, (breed, numbers) in zip(written[1:], derived, strict=True):
        assert [float(cell) for cell in line[1:]] == pytest.approx(numbers, rel=1e-3, abs=1e-5), breed


def test_the_header_names_the_measures_in_their_order(written: list[list[str]]) -> None:
    assert written[0][: 2 + len(ORDER)] == ["breed", "share", *ORDER]


def test_the_threshold_in_the_file_is_the_one_that_the_tables_give() -> None:
    assert tables.table("body.toml")["threshold"] == pytest.approx(threshold(), rel=0.01)


def test_the_middle_of_a_kernel_is_a_dog_of_the_breed() -> None:
    corgis = [kernel for kernel in kernels() if kernel.breed == "Pembroke Welsh Corgi"]

    for kernel in corgis:
        length, height, width, throat, weight, girth = (math.exp(value) for value in kernel.mean)
        assert 10 < height < 12
        assert 1.3 < length / height < 1.6
        assert 0.45 < width / height < 0.75
        assert 0.68 < throat / height < 0.78
        assert 20 < weight < 36
        assert 2.5 < girth / width < 4
