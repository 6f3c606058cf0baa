"""What `fanwright sheets` promises: the same layout for a seed, one line for a refusal, numbers a program can read.

    sheets_promises.py FANWRIGHT
"""
import json
import pathlib
import subprocess
import sys
import tempfile
import unittest

FANWRIGHT = sys.argv.pop()

RECTANGLE = {
    "fanwright": 1,
    "title": "Rectangle",
    "silhouette": {"path": "M 0 0 H 60 V 120 H 0", "shows": "flat"},
    "leaves": 46,
    "rows": {"count": 6, "spine_gap": 3, "edge_gap": 8},
    "sheet": {"size": "A4"},
    "sizes": [{"name": "small", "height": 80}, {"name": "large", "height": 120, "leaves": 10}],
}


class SheetsPromises(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory(prefix="sheets-")
        self.addCleanup(folder.cleanup)
        self.file = pathlib.Path(folder.name) / "rectangle.ornament.json"
        self.file.write_text(json.dumps(RECTANGLE), encoding="utf-8")

    def run_sheets(self, *options):
        return subprocess.run([FANWRIGHT, "sheets", str(self.file), *options], stdout=subprocess.PIPE,
                              stderr=subprocess.PIPE, timeout=120, check=False, stdin=subprocess.DEVNULL, text=True)

    def numbers(self, *options):
        done = self.run_sheets("--json", "--work", "300000", *options)
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        numbers = json.loads(done.stdout)
        for paper in numbers["papers"]:
            del paper["seconds"]
        return numbers

    def test_every_leaf_is_laid_within_its_margin(self):
        paper, = self.numbers()["papers"]
        laid = {piece["name"]: 0 for piece in paper["pieces"]}
        for sheet in paper["sheets"]:
            for placement in sheet["placements"]:
                laid[placement["piece"]] += sheet["copies"]
                self.assertTrue(6 <= placement["x_mm"] <= 204 and 6 <= placement["y_mm"] <= 291, placement)
                self.assertIn(placement["turn_deg"], (0, 180))
        self.assertEqual(laid, {piece["name"]: piece["count"] for piece in paper["pieces"]})
        self.assertLessEqual(paper["no_layout_needs_fewer_than"], paper["sheets_in_all"])

    def test_a_seed_gives_the_same_layout(self):
        self.assertEqual(self.numbers("--seed", "3"), self.numbers("--seed", "3"))

    def test_stocks_with_prices_are_used_as_asked(self):
        paper, = self.numbers("--stock", "A3@0.4#2", "--stock", "letter@1")["papers"]
        self.assertEqual(sum(s["copies"] for s in paper["sheets"] if s["stock"] == "A3"), 2)
        letters = sum(s["copies"] for s in paper["sheets"] if s["stock"] == "letter")
        self.assertAlmostEqual(paper["cost"], 0.8 + letters)

    def test_a_leaf_too_large_is_refused_or_split(self):
        done = self.run_sheets("--size", "large", "--stock", "A5", "--work", "1000")
        self.assertEqual(done.returncode, 0, done.stderr)
        done = self.run_sheets("--size", "large", "--stock", "A6", "--work", "1000")
        self.assertEqual(done.returncode, 1)
        self.assertIn("would take it", done.stderr)
        self.assertIn("split it at the spine", done.stderr)
        done = self.run_sheets("--size", "large", "--stock", "30x40", "--lap", "8", "--work", "1000")
        self.assertEqual(done.returncode, 1)
        self.assertNotIn("split it at the spine", done.stderr, "a half is not split again")
        done = self.run_sheets("--size", "large", "--stock", "A6", "--lap", "8", "--work", "1000")
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertIn("right half with lap of large", done.stdout)

    def test_strips_of_fans_are_laid_out_for_each_size(self):
        fan = {"name": "wing", "pair": True, "depth": 9, "pleats": 8, "length": 50, "spread": 100}
        self.file.write_text(json.dumps({**RECTANGLE, "fans": [fan]}), encoding="utf-8")
        leaves, small, large = self.numbers()["papers"]
        self.assertEqual(len(leaves["pieces"]), 2)
        for paper, size in ((small, "small"), (large, "large")):
            names = [piece["name"] for piece in paper["pieces"]]
            self.assertTrue(any(name.startswith("wing, right") for name in names), names)
            self.assertTrue(any(name.startswith("wing, left") for name in names), names)
            self.assertTrue(all(name.endswith("of " + size) for name in names), names)
            laid = [placement["piece"] for sheet in paper["sheets"] for placement in sheet["placements"]]
            self.assertEqual(sorted(laid), sorted(names))

    def test_refusals_are_one_line(self):
        for options in (["--stock", "A9"], ["--size", "none"], ["--stock", "A4#1"], ["--work", "0"], ["--lap", "1"],
                        ["--lap", "nan"], ["--seed", "-1"], ["--stock", "A4", "--stock", "roll:610"]):
            done = self.run_sheets(*options)
            self.assertIn(done.returncode, (1, 2), options)
            self.assertEqual(len(done.stderr.splitlines()), 1, done.stderr)
            self.assertTrue(done.stderr.startswith("fanwright: ") and done.stderr.endswith(".\n"), done.stderr)
            self.assertEqual(done.stdout, "")


if __name__ == "__main__":
    unittest.main()
