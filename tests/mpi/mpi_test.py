#!/usr/bin/env python3
"""Sweeps by ranks of MPI: mpi_test.py DRUMLIN-MPI SOURCE-TREE.

The same bytes by any number of ranks and threads, after a rank was killed, after a signal, and
messages once, from one rank. Exit code 77 where there is no mpirun.
"""
import csv
import hashlib
import os
import pathlib
import shutil
import signal
import subprocess
import sys
import tempfile
import time

PROGRAM, SOURCE = sys.argv[1], pathlib.Path(sys.argv[2])
ROWS = 6000  # 12 chunks
LONG_ROWS = 20000  # 40 chunks: still at work when it is killed
STUDY = f"""title = "rows for ranks"
case = "{SOURCE}/cases/examples/first-look.toml"
model = "fast"
[design]
kind = "sobol"
size = {ROWS}
seed = 7
[[factor]]
key = "station[0].belt.removal_coefficient"
distribution = {{ kind = "lognormal", median = "4e-5 1/MPa", factor = 1.3 }}
[[factor]]
key = "conveyor.speed"
from = "2 m/min"
to = "8 m/min"
"""
# More ranks than cores, and by root in a container.
ENVIRONMENT = os.environ | {
    "OMPI_ALLOW_RUN_AS_ROOT": "1",
    "OMPI_ALLOW_RUN_AS_ROOT_CONFIRM": "1",
    "OMPI_MCA_rmaps_base_oversubscribe": "1",
}
failures = 0


def expect(holds, claim, shown=""):
    global failures
    print("ok  " if holds else "FAIL", claim, flush=True)
    if not holds:
        failures += 1
        print(shown, flush=True)


class Sweep:
    """A study under mpirun; ranks=0: without mpirun."""

    def __init__(self, folder, ranks, out, *more, study="study.toml"):
        self.out = folder / out
        before = ["mpirun", "-n", str(ranks)] if ranks else []
        self.process = subprocess.Popen(
            before + [PROGRAM, "sweep", str(folder / study), "--out", str(self.out), *more],
            stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=ENVIRONMENT,
            stdin=subprocess.DEVNULL)

    def end(self):
        self.said, self.complained = self.process.communicate(timeout=240)
        return self.process.returncode

    def chunks(self):
        return len(list(self.out.glob("chunks/*.h5")))

    def wait_for_chunks(self, number):
        until = time.monotonic() + 120
        while self.chunks() < number and self.process.poll() is None and time.monotonic() < until:
            time.sleep(0.001)

    def ranks(self):
        """Process ids by rank."""
        found = {}
        for place in pathlib.Path("/proc").glob("[0-9]*"):
            try:
                words = (place / "environ").read_bytes().split(b"\0")
                parent = (place / "stat").read_text().rsplit(")", 1)[1].split()[1]
            except OSError:
                continue
            if parent == str(self.process.pid):
                for word in words:
                    if word.startswith(b"OMPI_COMM_WORLD_RANK="):
                        found[int(word.split(b"=")[1])] = int(place.name)
        return found

    def table(self):
        file = self.out / "study.h5"
        return hashlib.sha256(file.read_bytes()).hexdigest() if file.exists() else None


def same_bytes(folder):
    alone = Sweep(folder, 0, "alone")
    expect(alone.end() == 0, "without mpirun it is one rank", alone.complained)
    for ranks, threads in ((1, 2), (2, 1), (2, 2), (3, 1)):
        sweep = Sweep(folder, ranks, f"r{ranks}t{threads}", "--threads", str(threads))
        expect(sweep.end() == 0 and sweep.table() == alone.table(),
               f"{ranks} ranks of {threads} threads: same bytes", sweep.complained)
        expect(sweep.said.count("rows of the fast model") == 1, "one rank tells what came of it")
    with open(sweep.out / "times.csv", newline="") as file:
        lines = list(csv.DictReader(file))
    who = {line["computed_by"].split(":")[1] for line in lines}
    expect(who == {"rank 0", "rank 1", "rank 2"}, "times.csv names every rank", who)
    expect(sum(int(line["rows"]) for line in lines) == ROWS, "no row is computed twice")


def killed_and_stopped(folder):
    alone = Sweep(folder, 0, "long", study="long.toml")
    expect(alone.end() == 0, "a longer study", alone.complained)
    expected = alone.table()
    for rank in (1, 0):
        sweep = Sweep(folder, 2, "killed", "--resume", "--threads", "1", study="long.toml")
        sweep.wait_for_chunks(sweep.chunks() + 3)
        os.kill(sweep.ranks()[rank], signal.SIGKILL)
        expect(sweep.end() != 0, f"rank {rank} killed: all end", sweep.said)
        kept = sweep.chunks()
        expect(3 <= kept < 40 and sweep.table() is None, f"{kept} of 40 chunks are kept")
    sweep = Sweep(folder, 2, "killed", "--resume", study="long.toml")
    expect(sweep.end() == 0 and sweep.table() == expected, "gone on with: same bytes",
           sweep.complained)

    sweep = Sweep(folder, 2, "stopped", "--threads", "1", study="long.toml")
    sweep.wait_for_chunks(3)
    os.kill(sweep.ranks()[1], signal.SIGTERM)  # one rank is enough
    code = sweep.end()
    expect(code == 130, "SIGTERM to one rank: exit code 130", (code, sweep.complained))
    expect("stopped on request" in sweep.complained and "--resume goes on" in sweep.complained,
           "what is kept is said", sweep.complained)
    kept = sweep.chunks()
    expect(3 <= kept < 40, f"{kept} of 40 chunks are kept")
    sweep = Sweep(folder, 2, "stopped", "--resume", "--threads", "1", study="long.toml")
    sweep.wait_for_chunks(kept + 2)
    sweep.process.send_signal(signal.SIGINT)  # to mpirun, as Ctrl-C is
    expect(sweep.end() != 0 or sweep.table() == expected, "Ctrl-C ends all, if they are not done",
           sweep.said)
    expect(sweep.chunks() >= kept + 2 or sweep.table() == expected, "and keeps what was done",
           (sweep.chunks(), sweep.complained))
    sweep = Sweep(folder, 3, "stopped", "--resume", study="long.toml")
    expect(sweep.end() == 0 and sweep.table() == expected, "gone on with: same bytes",
           sweep.complained)


def refusals(folder):
    (folder / "bad.toml").write_text(STUDY.replace("conveyor.speed", "conveyor.sped"))
    sweep = Sweep(folder, 2, "bad", study="bad.toml")
    expect(sweep.end() == 2, "a bad study: exit code 2", sweep.complained)
    expect(sweep.complained.count('nearest is "speed"') == 1, "told once", sweep.complained)
    expect(not sweep.out.exists(), "nothing is written")
    sweep = Sweep(folder, 2, "alone")
    expect(sweep.end() == 2 and sweep.complained.count("add --resume") == 1,
           "a folder that is there: exit code 2, told once", sweep.complained)
    if os.getuid() == 0 and (folder / "disk").mkdir() is None and subprocess.run(
            ["mount", "-t", "tmpfs", "-o", "size=600k", "none", folder / "disk"],
            stderr=subprocess.DEVNULL, check=False).returncode == 0:
        try:
            sweep = Sweep(folder, 2, "disk/out")
            expect(sweep.end() == 2 and sweep.complained.count("once there is room") == 1,
                   "a full disk: exit code 2, told once", sweep.complained)
            expect(0 < sweep.chunks() < 12, "what fitted is kept")
        finally:
            subprocess.run(["umount", folder / "disk"], check=False)
    else:
        print("skipped: a full disk (only root can mount a small one)")


def other_commands():
    words = ["mpirun", "-n", "2", PROGRAM]
    version = subprocess.run(words + ["--version"], capture_output=True, text=True,
                             env=ENVIRONMENT, check=False)
    expect(version.returncode == 0 and version.stdout.count("drumlin") == 1,
           "other commands are rank 0's alone", version.stdout)
    wrong = subprocess.run(words + ["sweeep"], capture_output=True, text=True, env=ENVIRONMENT,
                           check=False)
    expect(wrong.returncode == 2 and wrong.stderr.count("nearest") == 1, "mistakes are told once",
           wrong.stderr)


def main():
    if shutil.which("mpirun") is None:
        print("skipped: no mpirun here; tests/mpi.sh installs it")
        return 77
    with tempfile.TemporaryDirectory(prefix="drumlin-mpi-") as name:
        folder = pathlib.Path(name)
        (folder / "study.toml").write_text(STUDY)
        (folder / "long.toml").write_text(STUDY.replace(f"size = {ROWS}", f"size = {LONG_ROWS}"))
        same_bytes(folder)
        killed_and_stopped(folder)
        refusals(folder)
        other_commands()
    print("failures:", failures)
    return 1 if failures else 0


sys.exit(main())
