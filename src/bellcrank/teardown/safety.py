"""The plug lead comes off before anything else and goes back last, whatever a model says or forgets to say.

A planner that only trusted its models would be as safe as the worst of them. Here the rule is put into every model
before it is planned with; a model that cannot keep it is refused.
"""

from dataclasses import replace

from bellcrank.errors import KnowledgeFault
from bellcrank.knowledge.assembly import Assembly, Operation

PLUG_LEAD = "plug-lead"  # the part whose step makes an engine safe to turn
Groups = tuple[tuple[str, ...], ...]


def lead_steps(assembly: Assembly) -> tuple[str, ...]:
    """Name the steps that take the plug lead off."""
    return tuple(operation.id for operation in assembly.operations if operation.part == PLUG_LEAD)


def made_safe(assembly: Assembly) -> Assembly:
    """Give the assembly with every step waiting for the plug lead.

    Raises
    ------
    KnowledgeFault
        When a step turns or touches crank or blade and none takes the plug lead off, and when the lead itself waits for
        another step: what is in front of it belongs into the step that takes it off.
    """
    leads = lead_steps(assembly)
    if not leads:
        turning = next((one.id for one in assembly.operations if _turns(one)), None)
        if turning is not None:
            raise KnowledgeFault(
                f"Step “{turning}” turns the engine and no step takes the plug lead off. Add that step to its file."
            )
        return assembly
    return replace(assembly, operations=tuple(_waiting(one, leads) for one in assembly.operations))


def _turns(operation: Operation) -> bool:
    return operation.turns_crank or any(method.turns_crank for method in operation.methods)


def _waiting(operation: Operation, leads: tuple[str, ...]) -> Operation:
    if operation.part != PLUG_LEAD:
        methods = tuple(replace(one, needs=_with(one.needs, leads)) for one in operation.methods)
        return replace(operation, needs=_with(operation.needs, leads), methods=methods)
    if operation.needs or any(method.needs for method in operation.methods):
        raise KnowledgeFault(
            f"Step “{operation.id}” takes the plug lead off and waits for another step; it must be the first. Write "
            "what is in front of the lead into the step itself."
        )
    return operation


def _with(needs: Groups, leads: tuple[str, ...]) -> Groups:
    return needs if leads in needs else (*needs, leads)
