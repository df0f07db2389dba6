"""An answer of the numbers bench as lines of text, in the order of the page."""

from bellcrank.cli.terminal import wrap
from bellcrank.shop.answers import Answered


def answered_lines(answer: Answered) -> list[str]:
    """Lay out cautions, figure, sentences, figures beside it and what it rests on."""
    widest = max((len(name) for name, _ in answer.lines), default=0)
    return [
        *(wrap(one, first="! ", indent="  ") for one in answer.cautions),
        "",
        wrap(answer.said),
        *(wrap(one, first="  ", indent="  ") for one in answer.sentences),
        "",
        *(wrap(words, first=f"  {name:{widest}}  ", indent=" " * (widest + 4)) for name, words in answer.lines),
        "",
        *(wrap(one, first="  - ", indent="    ") for one in answer.notes),
    ]
