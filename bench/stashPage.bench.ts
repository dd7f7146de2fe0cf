/** How quickly the page of yarns answers with hundreds and with thousands on the shelf, in a real browser: ms to an answer, long tasks. */
import { mkdtempSync, rmSync } from "node:fs";
import { loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { chromium, type Page } from "@playwright/test";
import { build, preview } from "vite";
import { seededRandom } from "../src/base/random.ts";
import { findChromium } from "../scripts/ready.mjs";

// Whoever runs this file may have set another; the page is measured as it is given away.
process.env.NODE_ENV = "production";
const folder = mkdtempSync(join(tmpdir(), "twostrand-stash-"));
const place = { mode: "app", logLevel: "error", build: { outDir: folder, emptyOutDir: true } } as const;
await build(place);
const server = await preview({ ...place, preview: { port: 5191 } });
const executablePath = findChromium();
const browser = await chromium.launch({
  ...(executablePath ? { executablePath } : {}),
  args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking"],
});

console.log(`load of the machine before: ${loadavg()[0]!.toFixed(2)} (2 cores, no graphics processor)`);
for (const count of [400, 3000])
  for (const picture of ["value", "hue", "amount", "list"]) {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    await page.addInitScript((kept) => {
      localStorage.setItem("twostrand-view", JSON.stringify({ stage: "yarns" }));
      localStorage.setItem("twostrand-shelf-look", JSON.stringify({ picture: kept }));
    }, picture);
    await page.goto(server.resolvedUrls!.local[0]!);
    await page.locator(".stash-view").waitFor();
    await page
      .getByLabel("Shelf file", { exact: true })
      .setInputFiles({ name: "many.json", mimeType: "application/json", buffer: Buffer.from(shelfOf(count)) });
    await page.getByRole("button", { name: "Take it instead of mine" }).click();
    await page
      .getByText(`${count.toLocaleString("en-GB").replace(",", "")} yarns`)
      .first()
      .waitFor();
    // The bench works ahead for a while after any change; this is the page at rest.
    await page.waitForTimeout(3000);
    const search = page.getByRole("searchbox");
    const typed = await measured(page, async () => {
      await search.focus();
      for (const key of "moss 7") await press(page, key);
      for (let back = 0; back < 6; back++) await press(page, "Backspace");
    });
    const walked = await measured(page, async () => {
      await page.locator(".stash-view > [tabindex='0']").focus();
      for (let step = 0; step < 12; step++) await press(page, step % 4 === 3 ? "PageDown" : "ArrowDown");
    });
    const changed = await measured(page, async () => {
      await page.getByRole("textbox", { name: "Note" }).fill("from the attic");
      await press(page, "Enter");
    });
    console.log(
      `${count} yarns by ${picture}: ${words("key in the search", typed)}; ${words("arrow", walked)}; ${words("a note kept", changed)}`,
    );
    await page.close();
  }
console.log(`load of the machine after: ${loadavg()[0]!.toFixed(2)}`);
await browser.close();
await server.close();
rmSync(folder, { recursive: true });

interface Measured {
  /** From the key to the frame that shows its answer. */
  readonly answers: readonly number[];
  readonly longTasks: readonly number[];
}

async function press(page: Page, key: string): Promise<void> {
  await page.keyboard.press(key === " " ? "Space" : key);
  await page.waitForTimeout(120);
}

async function measured(page: Page, act: () => Promise<void>): Promise<Measured> {
  await page.evaluate(() => {
    const kept = { answers: [] as number[], longTasks: [] as number[] };
    const onKey = (event: Event): void => {
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => kept.answers.push(performance.now() - event.timeStamp);
        port2.postMessage(null);
      });
    };
    addEventListener("keydown", onKey, true);
    const observer = new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) kept.longTasks.push(entry.duration);
    });
    observer.observe({ type: "longtask" });
    Object.assign(window, {
      ended: () => {
        removeEventListener("keydown", onKey, true);
        observer.disconnect();
        return kept;
      },
    });
  });
  await act();
  return page.evaluate(() => (window as unknown as { ended: () => Measured }).ended());
}

function words(name: string, { answers, longTasks }: Measured): string {
  const at = (part: number): string =>
    (answers.toSorted((a, b) => a - b)[Math.min(answers.length - 1, Math.floor(part * answers.length))] ?? 0).toFixed(
      0,
    );
  const long = longTasks.length > 0 ? `, longest task ${Math.max(...longTasks).toFixed(0)}` : ", no long task";
  return `${name} p50 ${at(0.5)}, longest ${at(1)}${long}`;
}

/** Yarns of an invented mill in invented shades; the same ones every time. */
function shelfOf(count: number): string {
  const random = seededRandom(5);
  const names = ["moss", "peat", "hoar", "slate", "lichen", "heath", "tarn", "scree", "gorse", "juniper"];
  const yarns = Array.from({ length: count }, (_, at) => ({
    id: `y${at}`,
    name: `${names[at % names.length]} ${Math.floor(at / names.length)}`,
    maker: "Sample Mill",
    fibre: at % 3 === 0 ? "wool, silk" : "wool",
    shade: {
      lab: [8 + 86 * random(), 70 * (random() - 0.5), 80 * (random() - 0.4)],
      uncertainty: 1 + 5 * random(),
      from: "photo",
    },
    metresPer100g: 150 + Math.floor(400 * random()),
    lots: [{ id: "l1", lot: String(1000 + at), grams: Math.ceil(120 * random()) }],
  }));
  return JSON.stringify({ format: "twostrand-shelf", version: 1, yarns });
}
