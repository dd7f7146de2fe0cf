/** Makes a fresh clone ready: installs the packages when the lock file is newer, and a browser for the tests when asked. */
import { execSync } from "node:child_process";
import { existsSync, statSync } from "node:fs";
import { delimiter, join } from "node:path";

const age = (file) => (existsSync(file) ? statSync(file).mtimeMs : 0);
const run = (command) => execSync(command, { stdio: "inherit" });

export function findChromium() {
  const onPath = (process.env.PATH ?? "")
    .split(delimiter)
    .flatMap((folder) => [join(folder, "chromium"), join(folder, "google-chrome")]);
  return [process.env.CHROMIUM, "/usr/bin/chromium", ...onPath].find((file) => file && existsSync(file));
}

function installChromium() {
  try {
    if (process.getuid?.() === 0) run("apt-get update -qq && apt-get install -y -qq --no-install-recommends chromium");
  } catch {
    console.error("Installing Chromium did not succeed.");
  }
  if (!findChromium()) {
    console.error(
      "The browser tests need Chromium: install it (apt-get install chromium) or set CHROMIUM to its path.",
    );
    process.exit(1);
  }
}

if (process.argv[1] === import.meta.filename) {
  if (age("node_modules/.package-lock.json") < age("package-lock.json")) run("npm ci --include=dev");
  if (process.argv.includes("--browser") && !findChromium()) installChromium();
}
