import { defineConfig } from "@playwright/test";
import { findChromium } from "./scripts/ready.mjs";

const executablePath = findChromium();

export default defineConfig({
  testDir: "test/e2e",
  workers: 1,
  timeout: 90_000,
  fullyParallel: false,
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
