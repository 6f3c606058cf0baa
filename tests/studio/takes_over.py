"""A drawing given to the studio comes back as designs, or as one sentence.
Arguments: the fanwright program, the folder of the examples."""

import sys
import tempfile

from talk import Studio

program = sys.argv[1]
BELL = b"""<svg xmlns="http://www.w3.org/2000/svg" width="120mm" height="160mm" viewBox="0 0 120 160">
<path d="M20 140C30 130 32 110 34 80C36 40 45 20 60 20C75 20 84 40 86 80C88 110 90 130 100 140Z"/>
<circle cx="10" cy="10" r="6"/></svg>"""

with tempfile.TemporaryDirectory() as folder, Studio(program, folder) as studio:
    def take_over(query, body=BELL, kind="image/svg+xml"):
        return studio.ask("POST", "/api/import" + query, body, Content_Type=kind)

    status, found = take_over("?height=150&name=my_bell.svg&side=right")
    assert status == 200 and found["kind"] == "SVG", (status, found)
    assert [figure["title"] for figure in found["figures"]] == ["My bell", "My bell"]
    bell = found["figures"][0]
    assert abs(bell["size_mm"]["height"] - 150) < 0.1 and abs(bell["size_mm"]["width"] - 100) < 0.1, bell["size_mm"]
    assert bell["what"] == "whole" and bell["overlay"].startswith("<svg")
    assert max(z for _, z in bell["outline"]) == 150 and min(x for x, _ in bell["outline"]) == 0

    # The page lies on the leaf as it is scaled: the bell's foot, 60 and 140 mm on the page, is the leaf's.
    a, b, c, d, e, f = bell["placing"]
    foot = [60 * 96 / 25.4, 140 * 96 / 25.4]
    assert abs(a * foot[0] + c * foot[1] + e) < 0.1 and abs(b * foot[0] + d * foot[1] + f) < 0.1, bell["placing"]
    assert abs(found["page"]["height"] - 160 * 96 / 25.4) < 0.01 and bell["found"].startswith("M"), found["page"]

    status, one = take_over("?height=150&figure=2")
    assert status == 200 and len(one["figures"]) == 1 and one["figures"][0]["size_mm"]["height"] < 160, (status, one)

    status, design = studio.ask("POST", "/api/designs", {"text": bell["text"], "name": "bell.ornament.json"})
    assert status == 200 and design["id"], (status, design)

    for query, body, sentence in [("", b"words", "is no drawing"), ("?height=tall", BELL, "is no length"),
                                  ("?what=third", BELL, "half"), ("?side=top", BELL, "left"),
                                  ("?between=1,2=3", BELL, "known distance"), ("?height=20&width=20", BELL, "Give one"),
                                  ("?shows=shut", BELL, "flat"), ("?figure=3", BELL, "no figure"), ("", b"\x89PNG\r\n\x1a\n", "damaged")]:
        status, refused = take_over(query, body)
        assert status == 400 and sentence in refused["sentence"], (query, status, refused)
    assert studio.ask("GET", "/api/import")[0] == 405
    assert take_over("", BELL + b" " * (64 << 20))[0] == 413
print("drawings are taken over")
