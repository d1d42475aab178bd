"""Adds what browser tests did to the counts: browser.py REPORT COUNTS."""
import json
import sys

with open(sys.argv[1]) as f:
    stats = json.load(f)["stats"]
passed, failed, skipped = stats["expected"], stats["unexpected"] + stats["flaky"], stats["skipped"]
print(f"{passed} passed, {failed} failed, {skipped} skipped in {stats['duration'] / 1000:.0f} s")
with open(sys.argv[2], "a") as f:
    print(passed, failed, skipped, file=f)
sys.exit(1 if failed or not passed else 0)
