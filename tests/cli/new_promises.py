"""fanwright new: from a drawing to a design file that the other commands take; broken files are refused whole."""
import json
import os
import pathlib
import subprocess
import sys
import tempfile

FANWRIGHT = os.path.abspath(sys.argv[1])
BELL = """<svg xmlns="http://www.w3.org/2000/svg" width="120mm" height="160mm" viewBox="0 0 120 160">
<g transform="rotate(4 60 80)"><path d="M20 140 C 30 130 32 110 34 80 C 36 40 45 20 60 20 C 75 20 84 40 86 80
C 88 110 90 130 100 140 Z"/><circle cx="75" cy="110" r="4" fill="white"/><circle cx="45" cy="110" r="4" fill="white"/>
</g><path d="M2 2h9v22h-9z"/></svg>"""


def run(*arguments, folder):
    return subprocess.run([FANWRIGHT, *arguments], cwd=folder, capture_output=True, text=True, timeout=300)


def refuses(folder, sentence, *arguments):
    before = sorted(os.listdir(folder))
    result = run(*arguments, folder=folder)
    assert result.returncode == 2, (arguments, result)
    assert result.stdout == "" and result.stderr.count("\n") == 1, result
    assert sentence in result.stderr, (sentence, result.stderr)
    assert sorted(os.listdir(folder)) == before, "something was written"


def from_drawing_to_design(folder):
    pathlib.Path(folder, "my bell.svg").write_text(BELL)
    result = run("new", "--from", "my bell.svg", "--height", "150", "--picture", "changes.svg", "--json", folder=folder)
    assert result.returncode == 0, result
    said = json.loads(result.stdout)
    assert said["written"] == "my bell.ornament.json" and len(said["figures"]) == 2
    figure = said["figures"][0]
    assert abs(figure["height_mm"] - 150) < 0.2 and abs(figure["width_mm"] - 100) < 0.2, figure
    assert abs(figure["tilt_deg"] + 4) < 0.02 and figure["cut_outs"] == 1 and figure["shown"] == "whole", figure
    design = json.loads(pathlib.Path(folder, "my bell.ornament.json").read_text())
    assert design == said["design"] and design["title"] == "My bell" and design["rows"] == "auto"
    assert run("open", "my bell.ornament.json", folder=folder).returncode == 0
    checked = run("check", "--brief", "my bell.ornament.json", folder=folder)
    assert checked.returncode == 0, checked
    assert pathlib.Path(folder, "changes.svg").read_text().startswith("<svg")


def starts_from_our_own(folder):
    result = run("new", "--starter", "pear", folder=folder)
    assert result.returncode == 0, result
    mine = json.loads(pathlib.Path(folder, "pear.ornament.json").read_text())
    ours = json.loads((pathlib.Path(__file__).parents[2] / "examples/orchard/pear.ornament.json").read_text())
    del ours["prices"], ours["publishing"]  # the collection's own
    assert mine == ours
    refuses(folder, "There is such a file already", "new", "--starter", "pear")
    refuses(folder, "there are apple", "new", "--starter", "spruce")


def refuses_what_is_no_drawing(folder):
    for name, content, sentence in [
        ("empty.svg", b"", "is empty"),
        ("words.svg", b"a pear, please", "is no drawing"),
        ("page.svg", b"<html><body/></html>", "no SVG drawing"),
        ("cut.svg", b"<svg xmlns='http://www.w3.org/2000/svg'><path d='M0 0", "is broken at byte"),
        ("blank.svg", b"<svg xmlns='http://www.w3.org/2000/svg'/>", "no filled shape"),
        ("letters.svg", b"<svg xmlns='http://www.w3.org/2000/svg'><text>Pear</text></svg>", "turn it into outlines"),
        ("paper.pdf", b"%PDF-1.4", "a PDF"),
        ("broken.svg", b"<svg xmlns='http://www.w3.org/2000/svg'><path id='a' d='M0 0 L 1 x'/></svg>", "shape 'a'"),
    ]:
        pathlib.Path(folder, name).write_bytes(content)
        refuses(folder, sentence, "new", "--from", name)
    refuses(folder, "no such file", "new", "--from", "nothing.svg")
    refuses(folder, "not a file", "new", "--from", ".")
    refuses(folder, "Give a drawing", "new")
    refuses(folder, "write two places", "new", "--from", "my bell.svg", "--out", "x.ornament.json", "--between", "1,2=3")
    refuses(folder, "There is no figure 7", "new", "--from", "my bell.svg", "--out", "x.ornament.json", "--figure", "7")


with tempfile.TemporaryDirectory() as place:
    from_drawing_to_design(place)
    starts_from_our_own(place)
    refuses_what_is_no_drawing(place)
print("fanwright new keeps its promises")
