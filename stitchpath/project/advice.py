"""Advice on how a key is written, and where it belongs."""

from stitchpath.project.fault import Path
from stitchpath.project.keys import Key
from stitchpath.project.wording import example_text, table_header


def home_text(path: Path) -> str:
    """Return the table at a path, as where a key belongs.

    Example:
        >>> home_text(("quilt", "quilting", 0)), home_text(("quilt", "quilting", 0, "area"))
        ('[[quilt.quilting]]', '`area`')
    """
    if not path:
        return "the top of the file, before every table"
    if _stands_on_a_line(path):
        return f"`{_name(path)}`"
    return table_header(path, "tables" if isinstance(path[-1], int) else "table")


def type_help(key: Key, path: Path) -> str:
    """Return what to write where a value of the wrong type stands."""
    in_list = isinstance(path[-1], int)
    if key.keys and not _stands_on_a_line(path):
        header = table_header(path, "tables" if in_list else key.kind)
        if key.kind == "tables" or in_list:
            return f"write {header}, two brackets on each side, once for each of them"
        return f"write {header}, one bracket on each side"
    example = example_help(key, path)
    return example or (f"give the {key.description}" if key.description else "")


def example_help(key: Key, path: Path) -> str:
    """Return an example of how a key, or an item of its list, can be written.

    Example:
        >>> from stitchpath.project.keys import find_key
        >>> path = ("quilt", "quilting", 0, "at")
        >>> example_help(find_key(path), path), example_help(find_key((*path, 1)), (*path, 1))
        ('for example `at = [150, 200]`', '')
    """
    text, in_list = example_text(key), isinstance(path[-1], int)
    if in_list and key.kind == "list":
        return f"for example `{text}`"
    if not text or (in_list and not key.keys):
        return ""
    return f"for example `{key.name} = {text}`"


def _stands_on_a_line(path: Path) -> bool:
    """Tell whether a table stands within a list of tables, where a header would be clumsy."""
    outer = path[:-1] if isinstance(path[-1], int) else path
    return any(isinstance(part, int) for part in outer[:-1])


def _name(path: Path) -> str:
    return str(path[-2] if isinstance(path[-1], int) else path[-1])
