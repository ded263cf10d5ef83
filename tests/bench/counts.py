#!/usr/bin/env python3
"""Instructions of both sides of an item of tests/bench/ratios, counted by valgrind's callgrind:
exact, and the same on a busy machine.

    counts.py RATIOS [ITEM ...]
"""
import re
import subprocess
import sys

TARGETS = {'L1-1k': 1.35, 'L1-10k': 1.35, 'L1-60k': 1.35, 'L3': 2.0}


def count(ratios, item, side):
    words = ['valgrind', '--tool=callgrind', '--callgrind-out-file=/dev/null',
             '--toggle-collect=measured_once', ratios, '--once', item, side]
    said = subprocess.run(words, capture_output=True, text=True, check=True).stderr
    return int(re.search(r'Collected : (\d+)', said).group(1))


def main():
    failed = 0
    for item in sys.argv[2:] or ['L1-1k', 'L1-10k', 'L3']:
        a, b = (count(sys.argv[1], item, side) for side in 'ab')
        target = TARGETS.get(item)
        holds = target is None or a <= target * b
        failed += not holds
        says = '' if target is None else f'  target <= {target}  {"PASS" if holds else "FAIL"}'
        print(f'{item:8} {a:14,} / {b:14,}  {a / b:.3f}{says}', flush=True)
    return failed > 0


sys.exit(main())
