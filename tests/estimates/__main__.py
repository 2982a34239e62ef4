"""The calibration of estimates, anew:

    python -m tests.estimates draw FILE [COUNT] [ROOMS]   draw houses into a file; begins again where it was stopped
    python -m tests.estimates record FILE                 keep the drawn values of the file in the project
    python -m tests.estimates calibrate                   write the engine's factors from them
    python -m tests.estimates hits                        print how many of the others lie inside their ranges

ROOMS is a JSON list of objects with an ``outline_wkt`` [m].
"""

from __future__ import annotations

import sys
from pathlib import Path

from tests.estimates.calibration import calibrate, held_out, hits, read_record, table, write_record
from tests.estimates.drawing import draw, read, rooms_of


def main(words: list[str]) -> int:
    match words:
        case ["draw", path, *rest]:
            draw(Path(path), int(rest[0]) if rest else 600, rooms_of(Path(rest[1])) if rest[1:] else [])
        case ["record", path]:
            write_record(read(Path(path)))
        case ["calibrate"]:
            calibrate(read_record())
        case ["hits"]:
            rows = [row for row in read_record() if held_out(row)]
            found = hits(rows)
            print(f"{len(rows)} houses\n{table(found)}")
            for (known, name), (inside, whole) in found.items():
                if name.startswith("materials:"):
                    print(known, name, f"{inside} of {whole}")
        case _:
            print(__doc__)
            return 2
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
