/** How smoothly picture, gutter, findings and weights follow the distance, in a real browser: frames and long tasks in ms. */
import { mkdtempSync, rmSync } from "node:fs";
import { loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { chromium, type Page } from "@playwright/test";
import { build, preview } from "vite";
import { findChromium } from "../scripts/ready.mjs";

// Whoever runs this file may have set another; the page is measured as it is given away.
process.env.NODE_ENV = "production";
const folder = mkdtempSync(join(tmpdir(), "twostrand-distance-"));
const place = { mode: "app", logLevel: "error", build: { outDir: folder, emptyOutDir: true } } as const;
await build(place);
const server = await preview({ ...place, preview: { port: 5190 } });
const executablePath = findChromium();
const browser = await chromium.launch({
  ...(executablePath ? { executablePath } : {}),
  args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking"],
});

console.log(`load of the machine before: ${loadavg()[0]!.toFixed(2)} (2 cores, no graphics processor)`);
for (const { name, view, size } of [
  { name: "as it lies", view: {}, size: { width: 1440, height: 900 } },
  { name: "as seen", view: { seen: true }, size: { width: 1440, height: 900 } },
  { name: "as seen, with findings", view: { seen: true, colourway: "w2" }, size: { width: 1440, height: 900 } },
  { name: "as seen, weak red", view: { seen: true, eye: "protan" }, size: { width: 1440, height: 900 } },
  { name: "as seen, narrow", view: { seen: true }, size: { width: 390, height: 844 } },
]) {
  const page = await browser.newPage({ viewport: size });
  await page.addInitScript((kept) => localStorage.setItem("twostrand-view", JSON.stringify(kept)), {
    distance: 0.5,
    ...view,
  });
  await page.goto(server.resolvedUrls!.local[0]!);
  await page.locator("canvas[data-waiting=false]").first().waitFor();
  await page.locator("#findings-title .count").waitFor({ state: "attached" });
  // Stands that are worked out ahead are: this is the moved hand, not the first second of a changed yarn.
  await page.locator(".distance[data-ahead=all]").waitFor({ timeout: 60_000 });
  await page.waitForTimeout(1500);
  tell(`${name}, a stand every frame`, ...(await work(page, () => drag(page, 1))));
  await page.waitForTimeout(1500);
  tell(`${name}, a stand every third frame`, ...(await work(page, () => drag(page, 3))));
  await page.close();
}
console.log(`load of the machine after: ${loadavg()[0]!.toFixed(2)}`);
await browser.close();
await server.close();
rmSync(folder, { recursive: true });

interface Drag {
  /** Between one frame and the next, and from moving the hand to the end of that frame's painting in the page. */
  readonly frames: readonly number[];
  readonly answers: readonly number[];
  readonly longTasks: readonly number[];
  /** Frames that showed something of another distance than the hand's, and such as showed two distances at once. */
  readonly behind: number;
  readonly mixed: number;
}

/** There and back twice over all stands, the hand moved once in so many frames. */
function drag(page: Page, everyFrames: number): Promise<Drag> {
  return page.evaluate(async (every) => {
    const slider = document.querySelector<HTMLInputElement>("#distance")!;
    const write = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "value")!.set!;
    const longTasks: number[] = [];
    const observer = new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) longTasks.push(entry.duration);
    });
    observer.observe({ type: "longtask" });
    const last = Number(slider.max);
    const stands = Array.from({ length: last + 1 }, (_, stand) => stand);
    const way = [...stands, ...stands.toReversed(), ...stands, ...stands.toReversed()];
    const frames: number[] = [];
    const answers: number[] = [];
    let [behind, mixed] = [0, 0];
    const frame = () => new Promise<number>((resolve) => requestAnimationFrame(resolve));
    const painted = () =>
      new Promise<void>((resolve) => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => resolve();
        port2.postMessage(null);
      });
    let before = await frame();
    for (const stand of way)
      for (let turn = 0; turn < every; turn++) {
        const now = await frame();
        frames.push(now - before);
        before = now;
        if (turn > 0) continue;
        const began = performance.now();
        write.call(slider, String(stand));
        slider.dispatchEvent(new Event("input", { bubbles: true }));
        await painted();
        answers.push(performance.now() - began);
        const told = (part: string, name: string) => document.querySelector<HTMLElement>(part)!.dataset[name]!;
        const hand = told(".distance", "handAt");
        const words = told(".readout-row", "wordsFrom");
        const picture = told(".fabric-scroll canvas", "pictureFrom");
        const seen = picture !== "at hand";
        if (words !== hand || (seen && picture !== hand)) behind++;
        if (seen && picture !== words) mixed++;
      }
    observer.disconnect();
    return { frames: frames.slice(1), answers, longTasks, behind, mixed };
  }, everyFrames);
}

/** With it, processor time of the page's main thread in ms: what others do on the machine is not in it. */
async function work(page: Page, drag: () => Promise<Drag>): Promise<[Drag, number]> {
  const session = await page.context().newCDPSession(page);
  await session.send("Performance.enable", { timeDomain: "threadTicks" });
  const spent = async () =>
    (await session.send("Performance.getMetrics")).metrics.find(({ name }) => name === "TaskDuration")!.value * 1000;
  const before = await spent();
  const dragged = await drag();
  const after = await spent();
  await session.detach();
  return [dragged, after - before];
}

function tell(name: string, { frames, answers, longTasks, behind, mixed }: Drag, spent: number): void {
  const at = (list: readonly number[], part: number): string =>
    list.toSorted((a, b) => a - b)[Math.min(list.length - 1, Math.floor(part * list.length))]!.toFixed(1);
  console.log(
    `${name}: frames p50 ${at(frames, 0.5)}, p95 ${at(frames, 0.95)}, longest ${at(frames, 1)}; ` +
      `hand to answer p50 ${at(answers, 0.5)}, p95 ${at(answers, 0.95)}, longest ${at(answers, 1)}; ` +
      `main thread ${(spent / answers.length).toFixed(1)} a step; long tasks ${longTasks.length}${longTasks.length ? `, longest ${Math.max(...longTasks).toFixed(0)}` : ""}; ` +
      `behind in ${behind} and mixed in ${mixed} of ${answers.length} steps`,
  );
}
