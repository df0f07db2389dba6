from bellcrank.shop.last_answers import LastAnswers


def test_works_an_answer_out_once():
    worked = []
    answers = LastAnswers()
    for _ in range(3):
        assert answers.answer("how many", lambda: worked.append(1) or len(worked)) == 1


def test_forgets_what_was_asked_longest_ago():
    answers = LastAnswers(most=2)
    for question in ("a", "b"):
        answers.answer(question, lambda: "old")
    answers.answer("a", lambda: "new")
    answers.answer("c", lambda: "old")
    assert answers.answer("a", lambda: "new") == "old"
    assert answers.answer("b", lambda: "new") == "new"


def test_an_answer_that_could_not_be_worked_out_is_asked_again():
    answers = LastAnswers()
    try:
        answers.answer("a", lambda: 1 / 0)
    except ZeroDivisionError:
        assert answers.answer("a", lambda: 1) == 1
