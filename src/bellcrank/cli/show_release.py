"""The release list, as lines of text."""

from bellcrank.cli.show_next import caution_lines
from bellcrank.cli.terminal import heading, wrap
from bellcrank.shop.sheet import ProofLine, ReleaseSheet
from bellcrank.shop.words import counted

MARKS = {"passed": "ok", "failed": "NO", "undecided": "??", "open": "  "}
TYPED = {  # what is typed for an item that is not answered with yes or no
    "blade-bolt-torque": '--answer {item}="50 N·m"',
    "yes-no-none": "--answer {item}=yes, or {item}=none where it has no such thing",
    "stop-time": '--stop-times "2.4 2.5 2.6" --timing video-120',
    "tip-speed": '--top-speed "3000 rpm" --blade "530 mm"',
}


def release_lines(number: int, release: ReleaseSheet) -> list[str]:
    """Say whether the machine may go, why the items are asked, and the whole list with what is open on it."""
    lines = [heading("release list"), verdict(release)]
    if release.triggers:
        lines.append(wrap(", ".join(release.triggers), first="  asked because: ", indent="    "))
    lines += [wrap(sentence, first="  ! ", indent="    ") for sentence in release.beside]
    for proof in release.lines:
        lines += ["", *_proof(proof)]
    return [*lines, "", *_what_to_type(number, release)]


def verdict(release: ReleaseSheet) -> str:
    """Say in one line whether the machine is ready."""
    notes = f", with {counted(len(release.notes), 'note', 'notes')}" if release.notes else ""
    if release.ready:
        return f"  READY{notes}"
    in_the_way = counted(len(release.blocking), "thing is", "things are")
    return f"  NOT READY: {in_the_way} in the way"


def _what_to_type(number: int, release: ReleaseSheet) -> list[str]:
    if release.ready:
        return [f"mark it ready:  bellcrank handback {number} --ready"]
    return [
        f"answer an item:  bellcrank handback {number} --answer ITEM=yes",
        f"back as it is:   bellcrank handback {number} --not-ready --because WHY",
    ]


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
    if proof.status in ("open", "undecided") and proof.answer in TYPED:
        lines.append(f"{indent}type: {TYPED[proof.answer].format(item=proof.id)}")
    return lines
