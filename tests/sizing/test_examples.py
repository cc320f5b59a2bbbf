"""The examples in docstrings do what they show."""

import doctest
import importlib
import pkgutil

import pytest

import sizing

MODULES = [module.name for module in pkgutil.walk_packages(sizing.__path__, "sizing.")]


@pytest.mark.parametrize("name", MODULES)
def test_the_examples_of_a_module_hold(name: str) -> None:
    assert doctest.testmod(importlib.import_module(name)).failed == 0


def test_there_are_examples() -> None:
    finder = doctest.DocTestFinder()
    counted = sum(len(test.examples) for name in MODULES for test in finder.find(importlib.import_module(name)))

    assert counted >= 10
