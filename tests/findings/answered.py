"""What must hold for the findings of every answer, whoever computed it: used on examples, vectors and by fuzzers."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from tepidarium_engine.findings import STAGES, rank
from tepidarium_engine.glossary import Number, lookup

SEVERITIES = ("violation", "warning", "note")
_LAST = sum(map(len, STAGES.values()))
_MEMBER_NAME = re.compile(r"[a-z]+_[a-z_]+|(?<![\w])/[a-z]")


def finding_faults(answer: dict[str, Any]) -> list[str]:
    """Everything that is wrong with the findings of an answer as JSON, in words; none for a good one.

    The request as used is the member ``inputs`` of the answer.
    """
    found = answer["findings"]
    faults = [fault for finding in found for fault in _faults(finding, answer)]
    codes = [finding["code"] for finding in found]
    faults += [f"{code} is reported twice" for code in set(codes) if codes.count(code) > 1]
    if codes != [finding["code"] for finding in sorted(found, key=_order)]:
        faults.append(f"findings are not in order: {codes}")
    return faults


def wording_faults(answer: dict[str, Any]) -> list[str]:
    """What is wrong with the words of the findings of an answer: no sentence, more than two, a member of the JSON."""
    faults = [fault for finding in answer["findings"] for fault in _faulty_words(finding)]
    for finding in answer["findings"]:
        for words in (text for place in finding["places"] for text in (place["subject"], place["message"])):
            if _MEMBER_NAME.search(_without_names(words, answer["inputs"])):
                faults.append(f"{finding['code']}: {words!r} names a member of the JSON")
    return faults


def resolves(document: Any, pointer: str) -> bool:
    """Whether a JSON pointer (RFC 6901) leads to something in a document."""
    for step in pointer.split("/")[1:]:
        key = step.replace("~1", "/").replace("~0", "~")
        if isinstance(document, list) and key.isdigit() and int(key) < len(document):
            document = document[int(key)]
        elif isinstance(document, dict) and key in document:
            document = document[key]
        else:
            return False
    return True


def _order(finding: dict[str, Any]) -> tuple[int, int, str]:
    return SEVERITIES.index(finding["severity"]), rank(finding["code"]), finding["code"]


def _faults(finding: dict[str, Any], answer: dict[str, Any]) -> Iterator[str]:
    code, places = finding["code"], finding["places"]
    for place in places:
        document = answer["inputs"] if place["where_in"] == "request" else answer
        if not resolves(document, place["where"]):
            yield f"{code}: {place['where']} leads nowhere in the {place['where_in']}"
    for name in ("where", "where_in", "value", "limit"):
        if finding[name] != places[0][name]:
            yield f"{code}: {name} is not that of the first place"
    if len({(one["where_in"], one["where"], one["subject"], str(one["point"])) for one in places}) < len(
        places
    ):
        yield f"{code}: a place is listed twice"
    if rank(code) == _LAST:
        yield f"{code} has no place in the order of findings"
    yield from _faulty_numbers(finding)


def _without_names(words: str, inputs: dict[str, Any]) -> str:
    """Words without what the caller called things."""
    for name in sorted(set(_names(inputs)), key=len, reverse=True):
        words = words.replace(name, "")
    return words


def _names(value: Any) -> Iterator[str]:
    if isinstance(value, dict):
        yield from (value[key] for key in ("id", "name") if isinstance(value.get(key), str) and value[key])
        value = list(value.values())
    for member in value if isinstance(value, list) else ():
        yield from _names(member)


def _faulty_numbers(finding: dict[str, Any]) -> Iterator[str]:
    code, quantity = finding["code"], finding["quantity"]
    numbers = [place[name] for place in finding["places"] for name in ("value", "limit")]
    if quantity is None:
        if any(number is not None for number in numbers) or finding["unit"] is not None:
            yield f"{code}: a number without a quantity"
        return
    entry = lookup(quantity)
    if not isinstance(entry, Number) or entry.unit != finding["unit"]:
        yield f"{code}: {finding['unit']} is not the unit of {quantity}"


def _faulty_words(finding: dict[str, Any]) -> Iterator[str]:
    code, message = finding["code"], finding["message"]
    if _MEMBER_NAME.search(message):
        yield f"{code}: {message!r} names a member of the JSON"
    if not message[:1].isupper() or not message.endswith("."):
        yield f"{code}: {message!r} is no sentence"
    if len(re.findall(r"[.!?](?: |$)", message)) > 2:
        yield f"{code}: {message!r} has more than two sentences"
