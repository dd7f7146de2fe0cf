import { defineConfig } from "@playwright/test";
import { findChromium } from "./scripts/ready.mjs";

const executablePath = findChromium();

export default defineConfig({
  testDir: "test/e2e",
  workers: 1,
  timeout: 90_000,
  fullyParallel: false,
  // A machine that others share may miss one moment of a long journey; what needed its second try is told at the end.
  retries: process.env.CI ? 1 : 0,
  use: {
    baseURL: "http://127.0.0.1:5181/",
    trace: "off",
    launchOptions: {
      ...(executablePath ? { executablePath } : {}),
      args: [
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
      ],
    },
  },
  webServer: {
    // A folder of its own, so that a build beside the tests does not take the page away under them.
    command:
      "npx vite build --mode app --outDir ../../dist/tested --emptyOutDir && npx vite preview --mode app --outDir ../../dist/tested --strictPort --port 5181",
    url: "http://127.0.0.1:5181/",
    timeout: 120_000,
    reuseExistingServer: false,
  },
});
