"""Hard rooms and storeys for the service: ``python -m tests.fuzz rooms|storeys [first] [count]``, or ``one NAME SEED``.

Prints every request that would be answered with a fault of the service, with its number and the smallest body that
fails alike, those that take long, and what became of all. Exit code 1 when there was a fault.
"""

from __future__ import annotations

import json
import sys
from collections import Counter

from tests.fuzz.campaign import KINDS, Campaign
from tests.fuzz.case import outcome


def main(words: list[str]) -> int:
    if words[:1] == ["one"]:
        case = KINDS[words[1]](int(words[2]))
        print(case.calculation, json.dumps(case.body))
        found = outcome(case)
        print(found.fault or "no fault", found.codes, f"{found.took:.1f} s\n{found.trace}")
        return int(bool(found.fault))
    kind = words[0] if words else "rooms"
    first, count = (int(word) for word in (*words[1:3], *("0", "100")[len(words[1:3]) :]))
    campaign = Campaign(kind, tell=lambda line: print(line, flush=True))
    campaign.run(range(first, first + count))
    _print(campaign)
    return int(bool(campaign.faults))


def _print(campaign: Campaign) -> None:
    total = len(campaign.times)
    print(f"{total} {campaign.kind}: {campaign.answered} answered, {len(campaign.faults)} faults")
    for fault, count in Counter(campaign.faults.values()).most_common():
        print(f"  {count} x {fault}")
    print("refused:", ", ".join(f"{code} {count}" for code, count in campaign.codes.most_common(20)))
    slowest = sorted(campaign.times.items(), key=lambda one: -one[1])[:10]
    print("slowest:", ", ".join(f"{name} {took:.1f} s" for name, took in slowest))
    print(f"{sum(campaign.times.values()):.0f} s, {campaign.slow} slower than {campaign.SLOW:g} s")


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
