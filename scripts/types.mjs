/** Compiles the five views of the house: what the domain, the command line, the page, the worker and the tests may see. */
import { spawnSync } from "node:child_process";

let failed = 0;
for (const view of ["domain", "cli", "app", "worker", "test"]) {
  const { status } = spawnSync("npx", ["tsc", "-p", `tsconfig.${view}.json`], { stdio: "inherit" });
  if (status) console.error(`types: the ${view} view does not compile`);
  failed += status ? 1 : 0;
}
process.exitCode = failed ? 1 : 0;
