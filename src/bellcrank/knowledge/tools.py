"""The tools that checks, repairs and steps name: which of them every shop has, and what the others cost about."""

from collections.abc import Iterator, Mapping

from bellcrank.knowledge.line import Line
from bellcrank.knowledge.model import Pack, Tool
from bellcrank.sources import Basis, Origin

HANDS = "hand"  # a step's tool when none is taken


def tool(line: Line) -> Tool:
    """Make a tool; one that not every shop has must have a price."""
    everyday = line.yes("everyday")
    if not everyday and line.amount("price") <= 0:
        raise line.fault(f"“price” is “{line.cell('price')}”; it must be above 0 for what not every shop has.")
    return Tool(
        id=line.words("id"),
        words=line.words("words"),
        everyday=everyday,
        price=line.cell("price"),
        lend=line.yes("lend"),
        origin=Origin(line.choice("basis", Basis), line.words("source")),
    )


def unknown_tools(pack: Pack, tools: Mapping[str, Tool]) -> Iterator[tuple[str, str, str]]:
    """Give table, name of the line and words for every tool a pack names that the list does not have."""
    named = [("checks.csv", one.id, name) for one in pack.checks for name in one.tools]
    named += [("repairs.csv", one.id, name) for one in pack.repairs for name in one.tools]
    named += [
        ("assembly", "", name)
        for assembly in pack.assemblies
        for operation in assembly.operations
        for name in (operation.tool, *(method.tool for method in operation.methods))
        if name != HANDS
    ]
    for table, name, word in dict.fromkeys(named):
        if word not in tools:
            yield (
                table,
                name,
                f"“{name or table}” takes “{word}”, which is not in common/tools.csv. Add it or mend the word.",
            )
