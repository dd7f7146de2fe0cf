/** Runs every check there is and ends in one plain line, "N passed, N failed", counted from the runners' own reports. */
import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, rmSync } from "node:fs";

mkdirSync("dist", { recursive: true });
process.env.PLAYWRIGHT_JSON_OUTPUT_FILE = "dist/e2e.json";
let passed = 0;
let failed = 0;

const run = (command) => spawnSync(command, { shell: true, stdio: "inherit" }).status;

for (const command of ["npm run --silent types", "npm run --silent lint", "npm run --silent build"]) {
  if (run(command)) failed += 1;
  else passed += 1;
}

const runners = [
  {
    command: "npx vitest run --reporter=default --reporter=json --outputFile.json=dist/unit.json",
    report: "dist/unit.json",
    count: (r) => [r.numPassedTests, r.numFailedTests],
  },
  {
    command: "npx playwright test --reporter=list,json",
    report: "dist/e2e.json",
    count: (r) => {
      if (r.stats.flaky)
        console.log(`${r.stats.flaky} of the journeys needed a second try; they are named above as flaky`);
      return [r.stats.expected + r.stats.flaky, r.stats.unexpected];
    },
  },
];
for (const { command, report, count } of runners) {
  rmSync(report, { force: true });
  const status = run(command);
  let counted = [0, 0];
  try {
    counted = count(JSON.parse(readFileSync(report, "utf8")));
  } catch {
    console.error(`${report} was not written`);
  }
  passed += counted[0];
  // A file that does not load fails no test, yet the run is red.
  failed += status && !counted[1] ? 1 : counted[1];
}
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed ? 1 : 0;
