/** How smoothly a hand draws on large charts, in a real browser: ms from a move of the pointer to its frame, between frames, and to keep a stroke. */
import { mkdtempSync, rmSync } from "node:fs";
import { loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { chromium, type Page } from "@playwright/test";
import { build, preview } from "vite";
import { seededRandom } from "../src/base/random.ts";
import { findChromium } from "../scripts/ready.mjs";

// Whoever runs this file may have set another; the page is measured as it is given away.
process.env.NODE_ENV = "production";
const folder = mkdtempSync(join(tmpdir(), "twostrand-drawing-"));
const place = { mode: "app", logLevel: "error", build: { outDir: folder, emptyOutDir: true } } as const;
await build(place);
const server = await preview({ ...place, preview: { port: 5193 } });
const executablePath = findChromium();
const browser = await chromium.launch({
  ...(executablePath ? { executablePath } : {}),
  args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking"],
});

console.log(`load of the machine before: ${loadavg()[0]!.toFixed(2)} (2 cores, no graphics processor)`);
for (const side of [100, 400]) {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await page.addInitScript(() => localStorage.setItem("twostrand-view", JSON.stringify({ stage: "pattern" })));
  await page.goto(server.resolvedUrls!.local[0]!);
  await page.locator(".desk-scroll").waitFor();
  await page
    .getByLabel("Project file", { exact: true })
    .setInputFiles({ name: "large.json", mimeType: "application/json", buffer: Buffer.from(projectOf(side)) });
  await page.getByRole("application", { name: /^Large/ }).waitFor();
  await page.getByRole("button", { name: "Pattern", exact: true }).click();
  await page.getByText(`${side} stitches × ${side} rows`).first().waitFor();
  // The bench checks what was opened for a while; this is the page at rest.
  await page.waitForTimeout(8000);
  for (const [how, zoom] of [
    ["near", null],
    ["whole", "See the whole chart"],
  ] as const) {
    if (zoom) await page.getByRole("button", { name: zoom }).click();
    await page.waitForTimeout(300);
    for (const tool of ["Pencil", "Rectangle", "Line"]) {
      await page.getByRole("radio", { name: tool }).check();
      const { frames, answers, kept } = await stroke(page);
      console.log(
        `${side} × ${side}, ${how}, ${tool}: frame ${words(frames)}; move to its frame ${words(answers)}; keeping it ${kept.toFixed(0)}`,
      );
      await page.waitForTimeout(4000);
    }
  }
  const walked = await keys(page);
  console.log(`${side} × ${side}: a walking key to its frame ${words(walked)}`);
  await page.close();
}
console.log(`load of the machine after: ${loadavg()[0]!.toFixed(2)}`);
await browser.close();
await server.close();
rmSync(folder, { recursive: true });

function words(values: readonly number[]): string {
  const sorted = values.toSorted((a, b) => a - b);
  const at = (part: number): string =>
    (sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))] ?? 0).toFixed(1);
  return `p50 ${at(0.5)} p95 ${at(0.95)} longest ${at(1)} (${sorted.length})`;
}

interface Measured {
  /** Between two frames that followed a move. */
  readonly frames: number[];
  readonly answers: number[];
  /** From the lifting of the hand to the frame after. */
  readonly kept: number;
}

async function stroke(page: Page): Promise<Measured> {
  await page.evaluate(() => {
    const kept = { frames: [] as number[], answers: [] as number[], kept: 0, moves: [] as number[] };
    let last = 0;
    let live = true;
    const onFrame = (now: number): void => {
      if (last > 0 && kept.moves.length > 0) kept.frames.push(now - last);
      last = now;
      const moves = kept.moves.splice(0);
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = () => kept.answers.push(...moves.map((at) => performance.now() - at));
      port2.postMessage(null);
      if (live) requestAnimationFrame(onFrame);
    };
    requestAnimationFrame(onFrame);
    const onMove = (event: PointerEvent): void => {
      if (event.buttons > 0) kept.moves.push(event.timeStamp);
    };
    const onUp = (event: PointerEvent): void => {
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => (kept.kept = performance.now() - event.timeStamp);
        port2.postMessage(null);
      });
    };
    addEventListener("pointermove", onMove, true);
    addEventListener("pointerup", onUp, true);
    Object.assign(window, {
      ended: () => {
        live = false;
        removeEventListener("pointermove", onMove, true);
        removeEventListener("pointerup", onUp, true);
        return kept;
      },
    });
  });
  const box = (await page.locator(".desk-scroll").boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x - 250, y);
  await page.mouse.down();
  for (let at = 0; at < 160; at++) await page.mouse.move(x - 250 + 3 * at, y + 200 * Math.sin(at / 12), { steps: 1 });
  await page.mouse.up();
  await page.waitForTimeout(500);
  return page.evaluate(() => (window as unknown as { ended: () => Measured }).ended());
}

async function keys(page: Page): Promise<number[]> {
  await page.evaluate(() => {
    const answers: number[] = [];
    addEventListener(
      "keydown",
      (event) => {
        requestAnimationFrame(() => {
          const { port1, port2 } = new MessageChannel();
          port1.onmessage = () => answers.push(performance.now() - event.timeStamp);
          port2.postMessage(null);
        });
      },
      true,
    );
    Object.assign(window, { walked: answers });
  });
  await page.locator(".desk-scroll").focus();
  for (let at = 0; at < 40; at++) {
    await page.keyboard.press(at % 2 ? "ArrowUp" : "ArrowLeft");
    await page.waitForTimeout(40);
  }
  return page.evaluate(() => (window as unknown as { walked: number[] }).walked);
}

/** Invented: diamonds in six colours, some stitches strewn. */
function projectOf(side: number): string {
  const random = seededRandom(3);
  const ids = [..."ABCDEF"];
  const rows = Array.from({ length: side }, (_, row) =>
    Array.from({ length: side }, (_, column) => {
      if (random() < 0.02) return ids[Math.floor(6 * random())]!;
      return ids[(Math.abs((row % 24) - 12) + Math.abs((column % 24) - 12)) % 6]!;
    }).join(""),
  );
  return JSON.stringify({
    format: "twostrand-project",
    version: 1,
    name: "Large",
    pattern: {
      name: "Large",
      gauge: { stitches: 28, rows: 30 },
      colours: ids.map((id, at) => ({ id, name: `colour ${id}`, shade: { lab: [92 - 14 * at, 6, 10] } })),
      charts: [{ id: "c1", name: "large chart", worked: "round", rows }],
    },
    yarns: ids.map((id, at) => ({ id: `y${at}`, name: `yarn ${id}`, shade: { lab: [92 - 14 * at, 6, 10] } })),
    colourways: [{ id: "w1", name: "first", yarns: Object.fromEntries(ids.map((id, at) => [id, `y${at}`])) }],
  });
}
