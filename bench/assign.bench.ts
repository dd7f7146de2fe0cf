/** How fast the exact search proves its answer, and how that compares with a general solver; `SOLVER=0` leaves the solver out. */
import { assignYarns } from "../src/recolour/assign.ts";
import { solveByMip } from "./assignByMip.ts";
import { type Kind, makeProblem, makeSoftProblem } from "./assignProblems.ts";

const SEEDS = 20;
/** The bar is p95 < 5 s; what takes longer than this is told as unproven. */
const OWN_LIMIT_SECONDS = 30;
/** The solver asks its clock seldom: on the largest problems it has been seen to run several times over. */
const SOLVER_LIMIT_SECONDS = 60;

function at(sorted: readonly number[], share: number): number {
  return sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)]!;
}

function run(name: string, seeds: number, make: (seed: number) => ReturnType<typeof makeProblem>): void {
  const times: number[] = [];
  const cpu: number[] = [];
  const statuses = new Map<string, number>();
  let sum = 0;
  for (let seed = 1; seed <= seeds; seed++) {
    const problem = make(seed);
    const start = performance.now();
    const busy = process.cpuUsage();
    const answer = assignYarns({ ...problem, stop: () => performance.now() - start > OWN_LIMIT_SECONDS * 1000 });
    times.push(performance.now() - start);
    const { user, system } = process.cpuUsage(busy);
    cpu.push((user + system) / 1000);
    statuses.set(answer.status, (statuses.get(answer.status) ?? 0) + 1);
    if (answer.cost < Infinity) sum += answer.cost;
  }
  times.sort((a, b) => a - b);
  cpu.sort((a, b) => a - b);
  const told = [...statuses].map(([status, count]) => `${count} ${status}`).join(", ");
  const [median, late, most] = [at(times, 0.5), at(times, 0.95), times.at(-1)!].map((ms) => `${ms.toFixed(0)} ms`);
  console.log(
    `${name.padEnd(34)} median ${median}, p95 ${late}, most ${most}, processor median ${at(cpu, 0.5).toFixed(0)} ms, p95 ${at(cpu, 0.95).toFixed(0)} ms; ${told}; checksum ${sum.toFixed(6)}`,
  );
}

const kinds: [Kind, number[]][] = [
  ["random", [0.05, 0.15, 0.3]],
  ["near", [0.05, 0.15, 0.3]],
  ["apart", [0.05, 0.15, 0.3]],
  ["ladder", [0.05, 0.15, 0.3]],
];
console.log(`12 colours × 500 yarns, 66 clashing pairs, all different, ${SEEDS} seeds:`);
for (const [kind, densities] of kinds) {
  for (const density of densities) {
    run(`${kind} ${density * 100} %`, SEEDS, (seed) => makeProblem({ kind, colours: 12, yarns: 500, density, seed }));
  }
}
console.log("12 colours × 40 yarns, 55 pairs with a cost, all different:");
for (const [noise, seeds] of [
  [0, SEEDS],
  [0.3, SEEDS],
  [1, 4],
] as const) {
  run(`wanted steps, ${noise * 100} % noise, ${seeds} seeds`, seeds, (seed) =>
    makeSoftProblem(12, 40, 55, noise, seed),
  );
}

if (process.env.SOLVER !== "0") {
  console.log(`Against HiGHS (npm highs, one thread, limit ${SOLVER_LIMIT_SECONDS} s):`);
  for (const [kind, yarns, density] of [
    ["random", 60, 0.15],
    ["near", 40, 0.05],
    ["apart", 60, 0.1],
    ["random", 500, 0.05],
  ] as const) {
    const problem = makeProblem({ kind, colours: 12, yarns, density, seed: 1 });
    const start = performance.now();
    const own = assignYarns(problem);
    const ms = performance.now() - start;
    const mip = await solveByMip(problem, SOLVER_LIMIT_SECONDS);
    const equal =
      mip.status === "Optimal" ? (Math.abs(mip.cost - own.cost) < 1e-4 ? "equal optimum" : "DIFFERENT OPTIMUM") : "";
    const ratio = `${mip.status === "Optimal" ? "" : "at least "}${(mip.milliseconds / ms).toFixed(0)} ×`;
    console.log(`${kind} 12 × ${yarns}, ${density * 100} %: own ${ms.toFixed(0)} ms ${own.cost.toFixed(6)}; HiGHS ${mip.status} ${mip.milliseconds.toFixed(0)} ms ${mip.cost.toFixed(6)} ${equal}; ${ratio}`); // prettier-ignore
  }
}
