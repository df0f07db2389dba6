"""Finding the physics: public functions of the physics packages whose answer is a number."""

import importlib
import inspect
import pkgutil
import typing
from types import FunctionType

import bellcrank.cutting
import bellcrank.engine
import bellcrank.fastening
import bellcrank.measuring
from bellcrank.measuring.measured import Measured

PACKAGES = (bellcrank.fastening, bellcrank.cutting, bellcrank.engine, bellcrank.measuring)


def physics_functions(packages=PACKAGES):
    """Give the public functions that answer with a float, an array or a measured value."""
    found = []
    for package in packages:
        for module in pkgutil.iter_modules(package.__path__, f"{package.__name__}."):
            found += _of_module(importlib.import_module(module.name))
    return found


def _of_module(module):
    public = [one for name, one in vars(module).items() if isinstance(one, FunctionType) and not name.startswith("_")]
    own = [one for one in public if one.__module__ == module.__name__]
    return [one for one in own if _is_number(inspect.signature(one).return_annotation)]


def _is_number(annotation):
    return annotation in (float, Measured) or isinstance(annotation, typing.TypeVar)
