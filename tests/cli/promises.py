"""What every command promises: exit codes, where it writes, one line for a refusal, a kit that is whole or not there.

    promises.py FANWRIGHT
"""
import json
import os
import pathlib
import signal
import subprocess
import sys
import tempfile
import time
import unittest

FANWRIGHT = sys.argv.pop()

RECTANGLE = {
    "fanwright": 1,
    "title": "Rectangle",
    "silhouette": {"path": "M 0 0 H 60 V 120 H 0", "shows": "flat"},
    "leaves": 46,
    "rows": {"count": 6, "spine_gap": 3, "edge_gap": 8},
    "sheet": {"size": "A4"},
    "sizes": [{"name": "small", "height": 100}, {"name": "large", "height": 130, "leaves": 50}],
}

# A straight foot does not stand flat once open.
ARCHED = {"silhouette": {"path": "M 0 3 L 60 0 V 120 H 0", "shows": "flat"}}


def run(*arguments, **options):
    options.setdefault("stdout", subprocess.PIPE)
    return subprocess.run([FANWRIGHT, *map(str, arguments)], stderr=subprocess.PIPE, timeout=300, check=False,
                          stdin=subprocess.DEVNULL, text=True, **options)


class Promises(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory(prefix="promises-")
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)
        self.file = self.design("rectangle", {})

    def design(self, name, changes):
        file = self.folder / f"{name}.ornament.json"
        file.write_text(json.dumps({**RECTANGLE, **changes}), encoding="utf-8")
        return file

    def assert_refused(self, done, code=2):
        self.assertEqual(done.returncode, code, done.stderr)
        self.assertEqual(len(done.stderr.splitlines()), 1, done.stderr)
        self.assertTrue(done.stderr.startswith("fanwright: ") and done.stderr.endswith(".\n"), done.stderr)

    def test_help_and_version_are_results(self):
        for arguments in (["--help"], ["open", "--help"], ["check", "--help"], ["kit", "--help"], ["--version"]):
            done = run(*arguments)
            self.assertEqual((done.returncode, done.stderr), (0, ""), arguments)
            self.assertIn("fanwright", done.stdout)

    def test_a_wrong_command_line_is_refused(self):
        for arguments in ([], ["opne"], ["open"], ["open", self.file, "--jsn"], ["kit", self.file], ["open", self.file, "b"],
                          ["open", self.file, "--size"], ["open", self.file, "--size", "a\nb"], ["open", self.file, "--view", "top"]):
            done = run(*arguments)
            self.assert_refused(done)
            self.assertEqual(done.stdout, "")

    def test_what_is_no_file_is_refused(self):
        fifo = self.folder / "pipe"
        os.mkfifo(fifo)
        for file in (self.folder / "missing.json", self.folder, fifo, "/dev/zero", ""):
            self.assert_refused(run("open", file))

    def test_open_gives_every_size_in_a_fixed_order_of_keys(self):
        done = run("open", self.file, "--json")
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        report = json.loads(done.stdout)
        self.assertEqual([size["name"] for size in report["sizes"]], ["small", "large"])
        for size in report["sizes"]:
            self.assertEqual(list(size), ["name", "leaves", "opening_deg", "opened"])
            self.assertEqual(list(size["opened"]), ["height_mm", "height_spread_mm", "diameter_mm", "diameter_spread_mm",
                                                   "spine_height_mm", "hub_radius_mm", "foot_lift_mm", "lock_ratio",
                                                   "peak_strain", "holding_moment_Nmm", "pull_N_per_mm", "edge",
                                                   "solve"])
            self.assertGreater(size["opened"]["height_spread_mm"], 0)
            self.assertEqual(list(size["opened"]["edge"][0]), ["x", "z", "radius", "height"])
            self.assertEqual(list(size["opened"]["solve"]), ["unknowns", "iterations", "seconds"])
            self.assertGreater(len(size["opened"]["edge"]), 20)

    def test_open_is_the_same_twice(self):
        def forms():
            sizes = json.loads(run("open", self.file, "--json").stdout)["sizes"]
            for size in sizes:
                del size["opened"]["solve"]["seconds"]
            return sizes

        self.assertEqual(forms(), forms())

    def test_open_can_be_asked_for_one_size(self):
        report = json.loads(run("open", self.file, "--json", "--size", "large").stdout)
        self.assertEqual([size["leaves"] for size in report["sizes"]], [50])
        done = run("open", self.file, "--size", "huge")
        self.assert_refused(done)
        self.assertIn('"small", "large"', done.stderr)

    def test_open_shows_a_table(self):
        done = run("open", self.file)
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        for word in ("small", "large", "height", "diameter"):
            self.assertIn(word, done.stdout)

    def test_a_design_that_cannot_open_fails_its_check(self):
        # beta x1 / s = pi / 8 * 52 / 20.2 = 1.01
        done = run("open", self.design("locked", {"leaves": 8, "sizes": [{"name": "one"}]}))
        self.assert_refused(done, code=1)
        self.assertRegex(done.stderr, r"between rows \d+ and \d+ from the foot the lock ratio is 1\.\d+")
        self.assertRegex(done.stderr, r"at least \d+ leaves, or set these rows 1\.\d+ times as far apart")

    def test_open_tells_the_way_from_the_flat_stack(self):
        done = run("open", self.file, "--json", "--size", "small", "--opening-sequence", "6")
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        size = json.loads(done.stdout)["sizes"][0]
        stages = size["opening_sequence"]
        self.assertEqual([stage["opening_deg"] for stage in stages], [60, 120, 180, 240, 300, 360])
        moments = [stage["holding_moment_Nmm"] for stage in stages]
        self.assertEqual(moments, sorted(moments))
        self.assertAlmostEqual(moments[-1] / size["opened"]["holding_moment_Nmm"], 1, delta=0.005)
        table = run("open", self.file, "--size", "small", "--opening-sequence", "3")
        self.assertIn("from the flat stack to the full opening", table.stdout)
        self.assert_refused(run("open", self.file, "--opening-sequence", "1"))

    def test_check_tells_every_size_worst_first(self):
        file = self.design("arched", ARCHED)
        done = run("check", file, "--json")
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        report = json.loads(done.stdout)
        self.assertEqual([size["name"] for size in report["sizes"]], ["small", "large"])
        order = ["fails", "warning", "note", "good"]
        for size in report["sizes"]:
            self.assertEqual(list(size), ["name", "verdict", "findings"])
            verdicts = [order.index(finding["verdict"]) for finding in size["findings"]]
            self.assertEqual(verdicts, sorted(verdicts))
            self.assertEqual(size["verdict"], size["findings"][0]["verdict"])
            for finding in size["findings"]:
                self.assertEqual(list(finding), ["id", "verdict", "value", "unit", "limit", "limit_source", "sentence",
                                                 "remedy", "where"])
                self.assertTrue(finding["sentence"].endswith("."))
                if finding["verdict"] != "good":
                    self.assertTrue(finding["remedy"].endswith("."), finding)
        self.assertEqual(run("check", file, "--json").stdout, done.stdout)

    def test_check_exits_by_its_worst_finding(self):
        cases = (({}, 0), ({"leaves": 8, "sizes": [{"name": "one"}]}, 1), ({"sheet": {"size": "A6"}}, 1),
                 ({"making": {"bead": 0.7}, "sizes": [{"name": "one"}]}, 0))
        for number, (changes, code) in enumerate(cases):
            done = run("check", self.design(f"case{number}", {**ARCHED, **changes}))
            self.assertEqual((done.returncode, done.stderr), (code, ""), done.stdout)
            self.assertEqual("fails" in done.stdout, code == 1, done.stdout)
        done = run("check", self.design("open", {"silhouette": {"path": "M 0 0 L 30 10", "shows": "flat"}}))
        self.assert_refused(done)
        self.assertEqual(done.stdout, "")
        self.assert_refused(run("check", self.folder / "missing.json"))
        done = run("check", self.file, "--size", "huge")
        self.assert_refused(done)
        self.assertIn('"small", "large"', done.stderr)

    def test_check_in_brief_leaves_out_what_is_good(self):
        file = self.design("arched", ARCHED)
        whole = run("check", file, "--size", "large").stdout
        brief = run("check", file, "--size", "large", "--brief").stdout
        self.assertIn("good ", whole)
        self.assertNotIn("good ", brief)
        self.assertNotIn("small", whole)
        self.assertIn("can be made", brief)

    def test_a_full_disk_is_noticed(self):
        with open("/dev/full", "w", encoding="utf-8") as full:
            self.assert_refused(run("open", self.file, stdout=full))

    def test_paths_may_hold_anything(self):
        odd = self.folder / "l'\u00e9t\u00e9 \u202e \"x\"\n.json"
        odd.write_text("{", encoding="utf-8")
        self.assert_refused(run("open", odd))

    def test_an_interrupted_kit_leaves_the_old_one_whole(self):
        out = self.folder / "kit"
        self.assertEqual(run("kit", self.file, "--out", out).returncode, 0)
        before = {file: file.read_bytes() for file in out.rglob("*") if file.is_file()}
        changed = self.design("changed", {"title": "Changed", "leaves": 44})
        for end in (signal.SIGTERM, signal.SIGINT, signal.SIGKILL):
            with subprocess.Popen([FANWRIGHT, "kit", changed, "--out", out], stdout=subprocess.DEVNULL,
                                  stderr=subprocess.PIPE) as process:
                time.sleep(0.5)
                process.send_signal(end)
                process.wait(timeout=30)
            self.assertNotEqual(process.returncode, 0)
            self.assertEqual({file: file.read_bytes() for file in out.rglob("*") if file.is_file()}, before)
        self.assertEqual(run("kit", changed, "--out", out).returncode, 0)
        leftovers = sorted(entry.name for entry in self.folder.iterdir())
        self.assertEqual(leftovers, ["changed.ornament.json", "kit", "rectangle.ornament.json"])

    def test_a_folder_of_something_else_is_left_alone(self):
        out = self.folder / "photographs"
        out.mkdir()
        (out / "summer.txt").write_text("sun", encoding="utf-8")
        self.assert_refused(run("kit", self.file, "--out", out))
        self.assertEqual([entry.name for entry in out.iterdir()], ["summer.txt"])


if __name__ == "__main__":
    unittest.main()
