/** Curves of the exact search: time against chart colours and against yarns, medians over seeds; unproven answers are told with their gap. */
import { assignYarns, type AssignmentProblem } from "../src/recolour/assign.ts";
import { type Kind, makeProblem, makeSoftProblem } from "./assignProblems.ts";

const SEEDS = 5;
const LIMIT_SECONDS = 10;

function point(name: string, make: (seed: number) => AssignmentProblem): void {
  const times: number[] = [];
  let unproven = 0;
  let widest = 0;
  for (let seed = 1; seed <= SEEDS; seed++) {
    const problem = make(seed);
    const start = performance.now();
    const answer = assignYarns({ ...problem, stop: () => performance.now() - start > LIMIT_SECONDS * 1000 });
    times.push(performance.now() - start);
    if (answer.status === "optimal" || answer.status === "infeasible") continue;
    unproven += 1;
    widest = Math.max(widest, answer.gap);
  }
  times.sort((a, b) => a - b);
  const told = unproven > 0 ? `; ${unproven} unproven, gap up to ${(100 * widest).toFixed(2)} %` : "";
  console.log(`${name.padEnd(44)} median ${times[Math.floor(SEEDS / 2)]!.toFixed(0)} ms, most ${times.at(-1)!.toFixed(0)} ms${told}`); // prettier-ignore
}

console.log(`Median of ${SEEDS} seeds, at most ${LIMIT_SECONDS} s each.`);
for (const kind of ["random", "ladder"] satisfies Kind[]) {
  for (const colours of [3, 6, 9, 12, 14])
    point(`${kind} 5 %, ${colours} colours × 200 yarns`, (seed) =>
      makeProblem({ kind, colours, yarns: 200, density: 0.05, seed }),
    );
  for (const yarns of [20, 50, 100, 200, 500])
    point(`${kind} 5 %, 12 colours × ${yarns} yarns`, (seed) =>
      makeProblem({ kind, colours: 12, yarns, density: 0.05, seed }),
    );
}
for (const colours of [3, 6, 9, 12])
  point(`costs of pairs, 30 % noise, ${colours} × 40`, (seed) =>
    makeSoftProblem(colours, 40, (colours * (colours - 1)) / 2, 0.3, seed),
  );
for (const yarns of [20, 40, 80, 160])
  point(`costs of pairs, 30 % noise, 9 × ${yarns}`, (seed) => makeSoftProblem(9, yarns, 36, 0.3, seed));
