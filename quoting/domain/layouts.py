"""What a sheet of the book looks like: its columns, drop-downs and notes.

Made from the JSON Schemas by `quoting.checking.layouts`; handed to reading (which
finds the columns) and to writing (which builds the blank book).
"""

from __future__ import annotations

from dataclasses import dataclass

from quoting.domain.cells import Kind


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column (or, on a settings sheet, one setting).

    `units` are the units a bare number may stand for, by system: ("ft", "cm") means
    ft in a book laid out in feet and inches, cm in a metric one; () where the kind
    takes no unit. `choices` make the drop-down; `choices_from` names a sheet and
    column ("balloons.item") whose values make it instead. `forms` are the names of
    the forms that use the column (empty: every row does), `required_by` those that
    must have it. `common_practice` marks a starting value that has no source.
    """

    key: str
    heading: str
    kind: Kind
    note: str
    fix: str
    example: str = ""
    required: bool = False
    units: tuple[str, ...] = ()
    choices: tuple[str, ...] = ()
    choices_from: str = ""
    forms: tuple[str, ...] = ()
    required_by: tuple[str, ...] = ()
    default: str = ""
    group: str = ""
    width: int = 14
    common_practice: bool = False
    aliases: tuple[str, ...] = ()
    """Further headings that are taken for this one, as they are."""
    suffixes: tuple[str, ...] = ()
    """Words and signs that may stand behind a number and add nothing to it: the "s" of "22 s"."""
    changes_price: bool = False
    """True where the sheet may be without the column, and its values under another heading would change a price."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetLayout:
    """One sheet: its name as the tab shows it, and its columns in order.

    `is_settings` sheets hold one setting a row (Setting, Value, Meaning) instead of
    a table. `required` sheets must be somewhere in the books of a run.
    """

    key: str
    name: str
    about: str
    columns: tuple[Column, ...]
    is_settings: bool = False
    required: bool = False

    def column(self, key: str) -> Column:
        """The column of a key; KeyError where the sheet has none."""
        for column in self.columns:
            if column.key == key:
                return column
        raise KeyError(key)
