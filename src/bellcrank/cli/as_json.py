"""Any record of ours as JSON: field names are the keys, and a key ends in its unit where the field does."""

import json
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from decimal import Decimal
from enum import Enum
from pathlib import PurePath
from typing import Any


def plain(value: Any) -> Any:
    """Turn a record into what JSON knows: mappings, lists, texts and numbers.

    Money (Decimal) becomes text, so that no cent is lost; a number without a value becomes null.

    >>> plain((Decimal("1.50"), None, {"torque_nm": 9.0}))
    ['1.50', None, {'torque_nm': 9.0}]
    """
    if isinstance(value, Enum):
        return value.value
    if value is None or isinstance(value, str | int):
        return value
    if isinstance(value, float):
        return float(value) if value - value == 0 else None  # JSON has no NaN and no infinity
    if isinstance(value, Decimal | PurePath):
        return str(value)
    if is_dataclass(value) and not isinstance(value, type):
        return {field.name: plain(getattr(value, field.name)) for field in fields(value)}
    if isinstance(value, Mapping):
        return {str(key): plain(entry) for key, entry in value.items()}
    return [plain(entry) for entry in value]


def json_text(value: Any, *, ascii_only: bool = False) -> str:
    r"""Write a record as indented JSON, in the order of its fields.

    >>> print(json_text({"words": "9 N·m"}, ascii_only=True))
    {
      "words": "9 N\u00b7m"
    }
    """
    return json.dumps(plain(value), indent=2, ensure_ascii=ascii_only, allow_nan=False)
