// Takes the picture of the bench that README shows, from a build of its own: node scripts/bench-picture.mjs.
// Look at it before keeping it.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "@playwright/test";
import sharp from "sharp";
import { build, preview } from "vite";
import { findChromium } from "./ready.mjs";

const outDir = mkdtempSync(join(tmpdir(), "twostrand-picture-"));
await build({ mode: "app", logLevel: "error", build: { outDir } });
const server = await preview({
  mode: "app",
  logLevel: "error",
  build: { outDir },
  preview: { port: 0, strictPort: false },
});
const browser = await chromium.launch({ executablePath: findChromium(), args: ["--no-sandbox", "--disable-gpu"] });
try {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await page.goto(server.resolvedUrls.local[0]);
  await page.waitForSelector("canvas");
  // The colourway with two faults shows what a finding looks like.
  await page.getByRole("combobox", { name: "Colourway" }).selectOption({ label: "second try" });
  // The fabric is drawn tile by tile, and the findings come with their mends.
  await page.waitForTimeout(8000);
  await sharp(await page.screenshot())
    .png({ palette: true, quality: 95, compressionLevel: 9 })
    .toFile("docs/bench.png");
} finally {
  await browser.close();
  await server.close();
  rmSync(outDir, { recursive: true });
}
