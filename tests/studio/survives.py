"""Work is not lost: kill -9 in the middle of editing, broken journals, files changed by others, names already taken.
Arguments: the fanwright program, the folder of the examples."""

import glob
import json
import os
import random
import shutil
import sys
import tempfile
import threading
import time

from talk import Events, Studio

program, examples = sys.argv[1], sys.argv[2]
failures = []


def expect(what, passes):
    if not passes:
        failures.append(what)


def gesture(k):
    return {"do": {"label": f"step {k}", "changes": [{"at": "/leaves", "before": k, "after": k + 1}]}}


def open_pear(studio):
    status, design = studio.ask("POST", "/api/designs", {"open": "pear.ornament.json"})
    expect(f"opens: {status}", status == 200)
    return design


def killed_while_editing(folder):
    """Every gesture that was answered is there after kill -9, in order; at most those under way are lost."""
    answered = []
    studio = Studio(program, folder, "pear.ornament.json")
    design = open_pear(studio)

    def edit():
        try:
            for k in range(100_000):
                if studio.ask("POST", f"/api/designs/{design['id']}/journal", {"lines": [gesture(k)]})[0] != 200:
                    return
                answered.append(k)
        except OSError:
            pass

    editing = threading.Thread(target=edit)
    editing.start()
    time.sleep(1.5)
    studio.kill()
    editing.join()
    studio.__exit__()
    with Studio(program, folder, "pear.ornament.json") as again:
        design = open_pear(again)
        found = [line["do"]["changes"][0]["before"] for line in design["journal"][1:]]
        expect(f"killed: {len(answered)} answered, {len(found)} found", len(answered) > 5)
        expect("killed: the gestures are those made", found[: len(answered)] == answered and len(found) <= len(answered) + 1)
        expect("killed: the base is the file", design["text"] == open(os.path.join(folder, "pear.ornament.json")).read())
        status, bench = again.ask("GET", "/api/bench")
        expect("killed: the bench tells of unsaved work", bench["open"][0]["unsaved"] is True)


def broken_end(folder):
    """A last line that broke off, at any place, costs that line alone."""
    journal = os.path.join(folder, ".pear.ornament.json.journal")
    whole = open(journal, "rb").read()
    kept = whole.count(b"\n")
    for cut in (1, 5, 20):
        with open(journal, "wb") as file:
            file.write(whole + b'{"do":{"label":"half a line that broke off'[:-cut])
        with Studio(program, folder, "pear.ornament.json") as studio:
            expect(f"broken end: {cut}", len(open_pear(studio)["journal"]) == kept)
            status, _ = studio.ask("POST", f"/api/designs/{open_pear(studio)['id']}/journal", {"lines": [{"undo": 1}]})
            expect("broken end: goes on", status == 200)
        with open(journal, "rb") as file:
            lines = file.read().split(b"\n")
        expect("broken end: every line is whole", all(json.loads(line) for line in lines[:-1]) and lines[-1] == b"")
    # Something else under the journal's name is kept aside, not overwritten.
    with open(journal, "wb") as file:
        file.write(b"no journal\n")
    with Studio(program, folder, "pear.ornament.json") as studio:
        expect("no journal: begins anew", [list(line)[0] for line in open_pear(studio)["journal"]] == ["base"])
    expect("no journal: kept aside", open(journal + ".unreadable").read() == "no journal\n")
    os.remove(journal + ".unreadable")


def saved_and_changed(folder):
    path = os.path.join(folder, "pear.ornament.json")
    with Studio(program, folder, "pear.ornament.json") as studio:
        design = open_pear(studio)
        where = f"/api/designs/{design['id']}"
        page = Events(studio, design["id"])
        mine = design["text"].replace('"leaves": 42', '"leaves": 44')
        studio.ask("POST", where + "/journal", {"lines": [gesture(1)]})
        status, saved = studio.ask("POST", where + "/save", {"text": mine, "fingerprint": design["fingerprint"]})
        expect(f"save: {status}", status == 200 and open(path).read() == mine)
        told = studio.ask("GET", where)[1]
        expect("save: undo survives it", [list(line)[0] for line in told["journal"]] == ["base", "do", "saved"])
        expect("save: fingerprint", told["fingerprint"] == saved["fingerprint"])
        expect("save: nothing differs", "disk_text" not in told)
        # Somebody else changes the file.
        theirs = mine.replace('"leaves": 44', '"leaves": 50')
        with open(path, "w") as file:
            file.write(theirs)
        event = page.wait(lambda event: event[0] == "disk", 10)
        expect("disk: the page is told", event is not None and event[1]["text"] == theirs)
        told = studio.ask("GET", where)[1]
        expect("disk: told on loading", told["disk_text"] == theirs and told["fingerprint"] == event[1]["fingerprint"])
        status, answer = studio.ask("POST", where + "/save", {"text": mine, "fingerprint": saved["fingerprint"]})
        expect(f"disk: refused {status}", status == 409 and answer["text"] == theirs and open(path).read() == theirs)
        status, _ = studio.ask("POST", where + "/save",
                               {"text": mine, "fingerprint": saved["fingerprint"], "even_if_changed": True})
        expect("disk: saved all the same", status == 200 and open(path).read() == mine)
        # A copy under another name goes on as the design; a name that is taken is refused once.
        status, copy = studio.ask("POST", where + "/copy", {"name": "quince.ornament.json", "text": mine})
        expect(f"copy: {status}", status == 200 and copy["name"] == "quince.ornament.json" and copy["id"] == design["id"])
        shutil.copy(path, os.path.join(folder, "plum.ornament.json"))
        asked = {"name": "plum.ornament.json", "text": theirs}
        expect("copy: taken name", studio.ask("POST", where + "/copy", asked)[0] == 409)
        expect("copy: replaced", studio.ask("POST", where + "/copy", asked | {"replace": True})[0] == 200)
        expect("copy: written", open(os.path.join(folder, "plum.ornament.json")).read() == theirs)
        # Closing without unsaved work leaves no journal behind.
        studio.ask("DELETE", where)
        expect("closed: gone", studio.ask("GET", where)[0] == 404)
        page.close()
    left = [name for name in os.listdir(folder) if name.startswith(".")]
    expect(f"no journals left: {left}", left == [])


def never_saved(folder):
    """A design without a name survives as well, and gets one."""
    studio = Studio(program, folder)
    status, blank = studio.ask("POST", "/api/designs", {"blank": True})
    expect(f"blank: {status}", status == 200 and blank["name"] is None and blank["fingerprint"] is None)
    studio.ask("POST", f"/api/designs/{blank['id']}/journal", {"lines": [gesture(7)]})
    expect("blank: cannot be saved yet", studio.ask(
        "POST", f"/api/designs/{blank['id']}/save", {"text": blank["text"], "fingerprint": ""})[0] == 409)
    studio.kill()
    studio.__exit__()
    with Studio(program, folder) as again:
        bench = again.ask("GET", "/api/bench")[1]
        expect("blank: offered again", [entry["id"] for entry in bench["open"]] == [blank["id"]])
        design = again.ask("GET", f"/api/designs/{blank['id']}")[1]
        expect("blank: with its gesture", design["journal"][1:] == [gesture(7)] and design["text"] == blank["text"])
        # A design held by one studio is not given to a second one.
        with Studio(program, folder) as second:
            expect("held: not offered twice", second.ask("GET", "/api/bench")[1]["open"] == [])
        status, named = again.ask("POST", f"/api/designs/{blank['id']}/copy",
                                  {"name": "new.ornament.json", "text": blank["text"]})
        expect("blank: named", status == 200 and named["name"] == "new.ornament.json")
        with Studio(program, folder) as second:
            status, answer = second.ask("POST", "/api/designs", {"open": "new.ornament.json"})
            expect(f"held: {status} {answer}", status == 409 and "another studio" in answer["sentence"])


def random_edits(folder):
    """Ten thousand gestures in batches come back exactly, in order."""
    rng = random.Random(5)
    texts = ["birch", "quince “tart”", "ö\\\"\n\t", "\U0001f350", ""]
    lines = []
    for k in range(10_000):
        kind = rng.random()
        value = rng.choice([k, k / 7, None, rng.choice(texts), [k, {"a": rng.choice(texts)}]])
        lines.append({"undo": 1} if kind < 0.2 else {"redo": 1} if kind < 0.3 else
                     {"do": {"label": rng.choice(texts), "changes": [{"at": "/title", "after": value}]}})
    with Studio(program, folder) as studio:
        design = studio.ask("POST", "/api/designs", {"starter": "pear"})[1]
        where = f"/api/designs/{design['id']}"
        for start in range(0, len(lines), 500):
            status, _ = studio.ask("POST", where + "/journal", {"lines": lines[start : start + 500]})
            expect(f"edits: {status}", status == 200)
        studio.kill()
    with Studio(program, folder) as again:
        told = again.ask("GET", where)[1]
        expect("edits: as they were made", told["journal"][1:] == lines and told["journal"][0]["base"] == told["text"])
        status, _ = again.ask("POST", where + "/journal", {"restart": told["text"].replace("Pear", "Quince"), "n": 10_001})
        anew = again.ask("GET", where)[1]
        expect("edits: begun anew", status == 200 and [line["n"] for line in anew["journal"]] == [10_001] and "Quince" in anew["text"])


for run in (lambda f: (killed_while_editing(f), broken_end(f), saved_and_changed(f)), never_saved, random_edits):
    with tempfile.TemporaryDirectory() as place:
        shutil.copy(os.path.join(examples, "pear.ornament.json"), place)
        run(place)
        expect(f"left beside: {glob.glob(place + '/.*new')}", not glob.glob(place + "/.*new"))

for failure in failures[:40]:
    print(failure, file=sys.stderr)
sys.exit(1 if failures else 0)
