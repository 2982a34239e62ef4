"""Answers of ``GET`` that are kept, as a page asks the same for every visitor who has not yet typed anything."""

from __future__ import annotations

from collections import OrderedDict

from .answer import Answer

__all__ = ["KeptAnswers"]

MOST_ANSWERS = 256
LARGEST = 32_768
"""Of question and answer together [bytes]; larger ones are not kept."""


class KeptAnswers:
    """The answers asked for last, by what was asked: the same request has the same bytes."""

    def __init__(self) -> None:
        self._answers: OrderedDict[tuple[str, bytes], Answer] = OrderedDict()

    def get(self, accept: str, body: bytes) -> Answer | None:
        answer = self._answers.get((accept, body))
        if answer is not None:
            self._answers.move_to_end((accept, body))
        return answer

    def keep(self, accept: str, body: bytes, answer: Answer) -> None:
        if len(accept) + len(body) + len(answer.content) > LARGEST:
            return
        self._answers[accept, body] = answer
        if len(self._answers) > MOST_ANSWERS:
            self._answers.popitem(last=False)
