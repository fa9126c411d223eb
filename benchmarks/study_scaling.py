#!/usr/bin/env python3
"""How fast is a sweep by the program, and what stands in its way?

    python3 benchmarks/study_scaling.py PROGRAM [--mpi DRUMLIN-MPI] [--threads 1,2,4] [--ranks 1,2]
        [--rows 40000] [--repeats 3] [--folder DIR] [--chunks 10000] [--json FILE]

Strong scaling (the same rows by more threads or ranks), weak scaling (rows for every thread), the
machine's ceiling (as many programs of one thread as threads, at once, each with its own shard),
share of writing and packing, bytes per row, cost of going on, memory. Every time is the best of the
repeats by the clock; on a machine that others use, the columns of processor seconds say more.
Every table is compared with the first one, byte for byte, before it counts.
"""
import argparse
import csv
import hashlib
import json
import os
import pathlib
import platform
import shutil
import subprocess
import sys
import tempfile
import time

SOURCE = pathlib.Path(__file__).resolve().parent.parent
LIGHT = """[[factor]]
key = "station[0].belt.removal_coefficient"
distribution = { kind = "lognormal", median = "4e-5 1/MPa", factor = 1.3 }
[[factor]]
key = "conveyor.speed"
from = "2 m/min"
to = "8 m/min"
"""
HEAVY = LIGHT + """[[factor]]
key = "station[0].drum.hardness"
from = "20 Shore A"
to = "70 Shore A"
[[factor]]
key = "station[0].setting.interference"
from = "0.1 mm"
to = "0.6 mm"
"""
# Rows that a filter leaves out cost nothing: what is left is keeping them. Chunks of 16 rows.
EMPTY = """[[factor]]
key = "conveyor.speed"
from = "2 m/min"
to = "8 m/min"
[[filter]]
keep = "conveyor.speed > 119 m/min"
"""
ENVIRONMENT = os.environ | {
    # Pictures as pixels take a second at the end, however many rows there are.
    "DRUMLIN_NO_RENDERING": "1",
    "OMPI_ALLOW_RUN_AS_ROOT": "1",
    "OMPI_ALLOW_RUN_AS_ROOT_CONFIRM": "1",
    "OMPI_MCA_rmaps_base_oversubscribe": "1",
}


class Bench:
    def __init__(self, arguments, folder):
        self.arguments, self.folder = arguments, folder
        self.tables = {}
        self.result = {"rows": arguments.rows, "repeats": arguments.repeats,
                       "machine": platform.processor() or platform.machine(),
                       "cores": os.cpu_count(), "load_before": os.getloadavg()}

    def study(self, name, rows, factors, model="fast", case="first-look"):
        file = self.folder / f"{name}-{rows}.toml"
        file.write_text(f'title = "{name}"\ncase = "{SOURCE}/cases/examples/{case}.toml"\n'
                        f'model = "{model}"\n[design]\nkind = "sobol"\nsize = {rows}\nseed = 7\n'
                        + factors)
        return file

    def words(self, study, out, *more, ranks=0):
        before = ["mpirun", "--bind-to", "none", "-n", str(ranks)] if ranks else []
        program = self.arguments.mpi if ranks else self.arguments.program
        return before + [program, "sweep", str(study), "--out", str(out), "--quiet", *more]

    def run(self, *commands):
        """Runs commands at once. Seconds by the clock, processor seconds, peak memory [MB]."""
        start = time.monotonic()
        started = [subprocess.Popen(words, env=ENVIRONMENT, stdin=subprocess.DEVNULL)
                   for words in commands]
        cpu = peak = 0.0
        for process in started:
            _, status, used = os.wait4(process.pid, 0)
            process.returncode = os.waitstatus_to_exitcode(status)
            if process.returncode != 0:
                sys.exit(f"failed with {process.returncode}: {' '.join(process.args)}")
            cpu += used.ru_utime + used.ru_stime
            peak = max(peak, used.ru_maxrss / 1024)
        return time.monotonic() - start, cpu, peak

    def clear(self, *outs):
        for out in outs:
            shutil.rmtree(out, ignore_errors=True)

    def best(self, study, rows, *more, ranks=0):
        out = self.folder / "out"
        times = []
        for _ in range(self.arguments.repeats):
            self.clear(out)
            times.append(self.run(self.words(study, out, *more, ranks=ranks)))
            table = hashlib.sha256((out / "study.h5").read_bytes()).hexdigest()
            if self.tables.setdefault(study.name, table) != table:
                sys.exit(f"{study.name}: another table by {more} and {ranks} ranks")
        wall, cpu, peak = min(times)
        return {"rows_per_s": rows / wall, "wall_s": wall, "peak_MB": peak,
                "cpu_us_per_row": 1e6 * min(t[1] for t in times) / rows}

    def ceiling(self, study, rows, processes):
        outs = [self.folder / f"part{i}" for i in range(processes)]
        times = []
        for _ in range(self.arguments.repeats):
            self.clear(*outs)
            times.append(self.run(*(self.words(study, out, "--threads", "1", "--shard",
                                               f"{i + 1}/{processes}")
                                    for i, out in enumerate(outs))))
        self.clear(*outs)
        wall, cpu, _ = min(times)
        return {"rows_per_s": rows / wall, "wall_s": wall,
                "cpu_us_per_row": 1e6 * min(t[1] for t in times) / rows}

    def scaling(self, name, factors, rows, case):
        print(f"\n{name}: {rows} rows\n  who                     rows/s   of the ceiling"
              "   processor us/row   peak MB")
        lines = []

        def show(who, line, ceiling=None):
            share = "" if ceiling is None else f"{line['rows_per_s'] / ceiling['rows_per_s']:.2f}"
            print(f"  {who:20} {line['rows_per_s']:9.0f}   {share:>14}   "
                  f"{line['cpu_us_per_row']:16.1f}   {line.get('peak_MB', 0):7.0f}", flush=True)
            lines.append({"who": who, **line})

        study = self.study(name, rows, factors, case=case)
        for number in self.arguments.threads:
            ceiling = self.ceiling(study, rows, number)
            show(f"{number} programs", ceiling)
            show(f"{number} threads", self.best(study, rows, "--threads", str(number)), ceiling)
            if self.arguments.mpi and number in self.arguments.ranks:
                show(f"{number} ranks", self.best(study, rows, "--threads", "1", ranks=number),
                     ceiling)
            if number > 1:
                more = self.study(name, rows * number, factors, case=case)
                show(f"{number} threads, weak",
                     self.best(more, rows * number, "--threads", str(number)), ceiling)
        self.result[name] = lines

    def writing(self, name, factors, rows, case):
        """What is not computing rows, on one thread; packing by a merge of two shards."""
        study, out = self.study(name, rows, factors, case=case), self.folder / "out"
        shares, packs = [], []
        for _ in range(self.arguments.repeats):
            self.clear(out)
            wall, _, _ = self.run(self.words(study, out, "--threads", "1"))
            with open(out / "times.csv", newline="") as file:
                computing = sum(float(line["rows_s"]) for line in csv.DictReader(file))
            shares.append(1.0 - computing / wall)
        size = (out / "study.h5").stat().st_size
        parts = [self.folder / f"part{i}" for i in range(2)]
        self.clear(*parts)
        self.run(*(self.words(study, part, "--threads", "1", "--shard", f"{i + 1}/2")
                   for i, part in enumerate(parts)))
        kept = [file.stat().st_size for part in parts for file in part.glob("chunks/*.h5")]
        for _ in range(self.arguments.repeats):
            self.clear(self.folder / "merged")
            packs.append(self.run([self.arguments.program, "merge", *map(str, parts), "--out",
                                   str(self.folder / "merged"), "--quiet"]))
        self.clear(*parts, self.folder / "merged")
        pack = min(packs)
        found = {"share_not_computing": min(shares), "bytes_per_row": size / rows,
                 "chunk_bytes_per_row": sum(kept) / rows, "chunks": len(kept),
                 "pack_s": pack[0], "pack_cpu_us_per_row": 1e6 * pack[1] / rows}
        print(f"\n{name}: {100 * found['share_not_computing']:.1f} % of one thread's time is start, "
              f"writing and packing; {found['bytes_per_row']:.0f} bytes a row "
              f"({found['chunk_bytes_per_row']:.0f} in {len(kept)} chunks); packing "
              f"{found['pack_cpu_us_per_row']:.2f} us/row of processor, {pack[0]:.2f} s by the clock",
              flush=True)
        self.result[f"{name}_writing"] = found

    def going_on(self, rows):
        """A study stopped half-way: seconds from the call until the first new chunk is kept."""
        study, out = self.study("light", rows, LIGHT), self.folder / "out"
        seconds = []
        for _ in range(self.arguments.repeats):
            self.clear(out)
            first = subprocess.Popen(self.words(study, out), stderr=subprocess.DEVNULL)
            while len(list(out.glob("chunks/*.h5"))) < 32 and first.poll() is None:
                time.sleep(0.002)
            first.terminate()
            first.wait()
            kept = len(list(out.glob("chunks/*.h5")))
            start = time.monotonic()
            again = subprocess.Popen(self.words(study, out, "--resume"))
            while len(list(out.glob("chunks/*.h5"))) == kept and again.poll() is None:
                time.sleep(0.001)
            seconds.append(time.monotonic() - start)
            again.wait()
        self.result["first_new_chunk_after_resume_s"] = min(seconds)
        print(f"\ngoing on with half a study: first new chunk after {min(seconds):.2f} s")

    def many_chunks(self, chunks):
        """A shard of so many chunks of nothing: keeping them, and opening their folder."""
        study, out = self.study("empty", 32 * chunks, EMPTY, model="line"), self.folder / "out"
        self.clear(out)
        keep = self.run(self.words(study, out, "--shard", "1/2"))
        again = [self.run(self.words(study, out, "--shard", "1/2", "--resume"))
                 for _ in range(self.arguments.repeats)]
        manifest = (out / "manifest.sqlite").stat().st_size
        self.clear(out)
        found = {"chunks": chunks, "keep_ms_per_chunk": 1e3 * keep[0] / chunks,
                 "open_s": min(again)[0], "manifest_bytes_per_chunk": manifest / chunks,
                 "peak_MB": keep[2]}
        print(f"{chunks} chunks: {found['keep_ms_per_chunk']:.1f} ms to make and keep each, "
              f"{found['open_s']:.2f} s to open their folder and find nothing to do, "
              f"{found['manifest_bytes_per_chunk']:.0f} bytes of manifest each, "
              f"{keep[2]:.0f} MB of memory")
        self.result["many_chunks"] = found


def numbers(text):
    return [int(word) for word in text.split(",")]


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("program")
    parser.add_argument("--mpi")
    parser.add_argument("--threads", type=numbers, default=[1, 2])
    parser.add_argument("--ranks", type=numbers, default=[1, 2])
    parser.add_argument("--rows", type=int, default=40000)
    parser.add_argument("--repeats", type=int, default=3)
    parser.add_argument("--folder", help="where tables are written; left out: the system's own")
    parser.add_argument("--chunks", type=int, default=10000)
    parser.add_argument("--json")
    arguments = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="drumlin-scaling-", dir=arguments.folder) as name:
        bench = Bench(arguments, pathlib.Path(name))
        bench.scaling("light", LIGHT, arguments.rows, "first-look")
        bench.scaling("heavy", HEAVY, arguments.rows // 4, "panel-soft")
        bench.writing("light", LIGHT, arguments.rows, "first-look")
        bench.writing("heavy", HEAVY, arguments.rows // 4, "panel-soft")
        bench.going_on(max(arguments.rows, 32768))
        if arguments.chunks:
            bench.many_chunks(arguments.chunks)
        bench.result["load_after"] = os.getloadavg()
    print(f"\nload of the machine before and after: {bench.result['load_before'][0]:.1f}, "
          f"{bench.result['load_after'][0]:.1f} on {os.cpu_count()} cores")
    if arguments.json:
        pathlib.Path(arguments.json).write_text(json.dumps(bench.result, indent=1) + "\n")


main()
