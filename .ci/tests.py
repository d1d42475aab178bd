"""Reads what `go test -json` wrote: shows every failure in full and every
skipped test with its reason, and adds a line "passed failed skipped" to a file.

    tests.py EVENTS COUNTS

Status 1 where a test or a package failed, or where nothing was tested.
"""

import json
import sys


def main(events, counts):
    said = {}  # (package, test) -> its output
    number = {"pass": 0, "fail": 0, "skip": 0}
    bad = False
    with open(events, encoding="utf-8") as lines:
        for line in lines:
            try:
                event = json.loads(line)
            except ValueError:
                print(line, end="")
                continue
            action = event.get("Action")
            package = event.get("Package") or event.get("ImportPath", "")
            test = event.get("Test", "")
            if action in ("output", "build-output"):
                said.setdefault((package, test), []).append(event["Output"])
                continue
            if action == "build-fail":
                bad = True
                print("".join(said.get((package, test), [])), end="")
            if action not in number:
                continue
            if test:
                number[action] += 1
            if action == "fail":
                bad = True
                print("".join(said.get((package, test), [])), end="")
            elif action == "skip" and test:
                print("skipped", package, test + ":", reason(said.get((package, test), [])))
            elif action == "pass" and not test:
                print("ok  ", package, "%.1f s" % event.get("Elapsed", 0))
    with open(counts, "a", encoding="utf-8") as out:
        print(number["pass"], number["fail"], number["skip"], file=out)
    return 1 if bad or number["pass"] == 0 else 0


def reason(output):
    """The line that a test gave when it skipped."""
    told = [l.strip() for l in output if not l.lstrip().startswith(("===", "---"))]
    return told[-1] if told else "no reason given"


sys.exit(main(*sys.argv[1:]))
