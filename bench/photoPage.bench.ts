/** How long the page stands still while a photograph of 48 megapixels comes in: longest task, longest gap between frames, time until all is measured. */
import { spawn, spawnSync } from "node:child_process";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { chromium, type Page } from "@playwright/test";
import sharp from "sharp";
import { findChromium } from "../scripts/ready.mjs";
import { paintTable } from "../test/intake/tablePainter.ts";

const PORT = 5187;
const SIZES = (process.env.MEGAPIXELS ?? "12,48").split(",").map(Number);
const folder = mkdtempSync(join(tmpdir(), "twostrand-bench-"));
const app = join(folder, "app");

spawnSync("npx", ["vite", "build", "--mode", "app", "--outDir", app, "--emptyOutDir", "--logLevel", "error"], {
  stdio: "inherit",
});
const server = spawn(
  "npx",
  ["vite", "preview", "--mode", "app", "--outDir", app, "--strictPort", "--port", `${PORT}`],
  {
    stdio: "ignore",
    detached: true,
  },
);

const painted = paintTable(3);
const photos = await Promise.all(
  SIZES.map(async (megapixels) => {
    const [width, height] = [
      Math.round(Math.sqrt((megapixels * 1e6 * 4) / 3)),
      Math.round(Math.sqrt((megapixels * 1e6 * 3) / 4)),
    ];
    const image = sharp(painted.rgb, { raw: { width: painted.width, height: painted.height, channels: 3 } });
    const file = join(folder, `${megapixels}.jpg`);
    writeFileSync(file, await image.resize(width, height, { fit: "fill" }).jpeg({ quality: 92 }).toBuffer());
    return { megapixels, file };
  }),
);

const executablePath = findChromium();
const browser = await chromium.launch({
  ...(executablePath ? { executablePath } : {}),
  args: ["--no-sandbox", "--disable-gpu", "--enable-precise-memory-info"],
});
try {
  for (const { megapixels, file } of photos) {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    await openPage(page);
    await page.getByRole("button", { name: "Yarns", exact: true }).click();
    await page.getByRole("button", { name: "From a photograph" }).click();
    await page.getByRole("heading", { name: "Yarns from photographs" }).waitFor();
    await page.waitForTimeout(2000);
    await page.evaluate(watch);
    const begun = performance.now();
    await page.locator("input[type=file][multiple]").setInputFiles(file);
    await page.locator(".photo-reading strong").first().waitFor({ timeout: 120_000 });
    await page.locator(".photo-progress progress").waitFor({ state: "detached", timeout: 120_000 });
    const seconds = (performance.now() - begun) / 1000;
    const { longest, over50, gap } = await page.evaluate(() => (window as unknown as { watched: Watched }).watched);
    const yarns = await page.locator(".photo-yarn").count();
    console.log(
      `${megapixels} megapixels: longest task ${longest.toFixed(0)} ms (${over50} of 50 ms or more), longest gap between frames ${gap.toFixed(0)} ms, ${yarns} yarns measured in ${seconds.toFixed(1)} s`,
    );
    await page.close();
  }
} finally {
  await browser.close();
  process.kill(-server.pid!);
  rmSync(folder, { recursive: true });
}

interface Watched {
  longest: number;
  over50: number;
  gap: number;
}

/** Runs in the page. */
function watch(): void {
  const watched: Watched = { longest: 0, over50: 0, gap: 0 };
  (window as unknown as { watched: Watched }).watched = watched;
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) {
      watched.longest = Math.max(watched.longest, duration);
      watched.over50++;
    }
  }).observe({ type: "longtask" });
  let before = performance.now();
  const frame = (now: number) => {
    watched.gap = Math.max(watched.gap, now - before);
    before = now;
    requestAnimationFrame(frame);
  };
  requestAnimationFrame(frame);
}

async function openPage(page: Page): Promise<void> {
  for (let tries = 0; ; tries++)
    try {
      await page.goto(`http://127.0.0.1:${PORT}/`);
      return;
    } catch (reason) {
      if (tries > 40) throw reason;
      await page.waitForTimeout(250);
    }
}
