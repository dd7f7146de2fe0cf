/** Runs every file of bench/ in turn; each prints its own figures. */
import { spawnSync } from "node:child_process";
import { readdirSync } from "node:fs";

const wanted = process.argv.slice(2);
for (const file of readdirSync("bench")
  .filter((name) => name.endsWith(".bench.ts"))
  .sort()) {
  if (wanted.length && !wanted.some((word) => file.includes(word))) continue;
  console.log(`\n${file}`);
  spawnSync("npx", ["vite-node", `bench/${file}`], { stdio: "inherit" });
}
