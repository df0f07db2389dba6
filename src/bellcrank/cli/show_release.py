"""The release list, as lines of text."""

from bellcrank.cli.show_next import caution_lines
from bellcrank.cli.terminal import heading, wrap
from bellcrank.shop.sheet import ProofLine, ReleaseSheet

MARKS = {"passed": "ok", "failed": "NO", "undecided": "??", "not on this machine": "--", "open": "  "}


def release_lines(release: ReleaseSheet) -> list[str]:
    """Say whether the machine may go, what stands in the way, and the whole list."""
    lines = [heading("release list"), *verdict(release)]
    if release.triggers:
        lines.append(wrap(", ".join(release.triggers), first="  asked because: ", indent="    "))
    for proof in release.lines:
        lines += _proof(proof)
    return lines


def verdict(release: ReleaseSheet) -> list[str]:
    """Say in one sentence whether the machine is ready, then what is in the way."""
    lines = ["  READY" + (", with notes" if release.notes else "") if release.ready else "  NOT READY"]
    lines += [wrap(sentence, first="  - ", indent="    ") for sentence in release.blocking]
    return lines + [wrap(note, first="  note: ", indent="    ") for note in release.notes]


def _proof(proof: ProofLine) -> list[str]:
    indent = " " * 7
    hard = "must" if proof.hard else "should"
    lines = caution_lines(proof.cautions, "       ") if proof.status == "open" else []
    lines.append(wrap(proof.words, first=f"  [{MARKS.get(proof.status, '  ')}] ", indent=indent))
    lines.append(f"{indent}{proof.id}   {hard}, {proof.status}")
    if proof.detail:
        lines.append(wrap(proof.detail, indent=indent))
    if proof.limit_words:
        lines.append(wrap(f"{proof.limit_words} ({proof.source})", first=f"{indent}limit: ", indent=f"{indent}  "))
    if proof.status == "open" and proof.how:
        lines.append(wrap(proof.how, first=f"{indent}how: ", indent=f"{indent}  "))
    return lines
