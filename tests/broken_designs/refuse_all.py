"""Gives every broken design to `fanwright open --json`, and every fourth also to `fanwright kit`, which reads the file
through the same code but has a folder to leave behind.

Each must end within its time in exit 2 with exactly one line on standard error and nothing on standard output, and no
file may appear. The sound designs that they are made from must be accepted, so that each refusal is due to its change.

    refuse_all.py FANWRIGHT
"""
import concurrent.futures
import hashlib
import json
import os
import pathlib
import subprocess
import sys
import tempfile

import broken_meaning
import broken_text

SECONDS = 5
SECONDS_TO_OPEN = 60  # of a sound design, on a machine that others use
FEWEST_CASES = 200
KIT_OF_EVERY = 4


def run(command, seconds=SECONDS):
    return subprocess.run(command, capture_output=True, timeout=seconds, stdin=subprocess.DEVNULL, check=False)


def faults_of(command, kept, folder):
    """What is wrong with how the command refused; `kept` is all that `folder` may hold."""
    try:
        done = run(command)
    except subprocess.TimeoutExpired:
        return [f"took more than {SECONDS} s"]
    faults = []
    if done.returncode != 2:
        faults.append(f"exit {done.returncode}")
    if done.stdout:
        faults.append(f"standard output: {done.stdout[:80]!r}")
    try:
        sentence = done.stderr.decode("utf-8")
    except UnicodeDecodeError:
        return [*faults, f"standard error is not UTF-8: {done.stderr[:200]!r}"]
    if len(sentence.splitlines()) != 1 or not sentence.endswith(".\n") or len(sentence) > 600:
        faults.append(f"not one sentence: {sentence[:300]!r}")
    written = set(os.listdir(folder)) - kept
    if written:
        faults.append(f"left {sorted(written)}")
    return faults


def check(fanwright, case):
    number, (what, content) = case
    with tempfile.TemporaryDirectory(prefix="broken-design-") as folder:
        file = pathlib.Path(folder, "broken.ornament.json")
        file.write_bytes(content)
        commands = {
            "open": [fanwright, "open", str(file), "--json"],
        }
        if number % KIT_OF_EVERY == 0:
            commands["kit"] = [fanwright, "kit", str(file), "--out", str(pathlib.Path(folder, "kit"))]
        return [
            f"{what}: {name}: {fault}"
            for name, command in commands.items()
            for fault in faults_of(command, {file.name}, folder)
        ]


def check_sound(fanwright, design):
    with tempfile.TemporaryDirectory(prefix="sound-design-") as folder:
        file = pathlib.Path(folder, "sound.ornament.json")
        file.write_text(json.dumps(design), encoding="utf-8")
        done = run([fanwright, "open", str(file), "--json"], SECONDS_TO_OPEN)
        if done.returncode == 0:
            return []
        return [f"{design['title']}, sound: exit {done.returncode}: {done.stderr.decode(errors='replace')}"]


def main(fanwright):
    cases = [*broken_text.all_cases(), *broken_meaning.all_cases()]
    distinct = len({hashlib.sha256(content).digest() for _, content in cases})
    faults = [] if distinct >= FEWEST_CASES else [f"only {distinct} distinct broken designs"]
    for design in (broken_text.BASE, broken_meaning.rectangle()):
        faults += check_sound(fanwright, design)
    with concurrent.futures.ThreadPoolExecutor(max_workers=2) as workers:
        for found in workers.map(lambda case: check(fanwright, case), enumerate(cases)):
            faults += found
    print("\n".join(faults))
    print(f"{distinct} distinct broken designs, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
