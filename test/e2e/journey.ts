/** What every journey shares: a bench that is ready, and hands that have a keyboard only. */
import { expect, type Locator, type Page } from "@playwright/test";

/** The page with its fabric drawn and its check done; requests that would leave the origin are noted. */
export async function openBench(page: Page): Promise<{ readonly strangers: string[]; readonly errors: string[] }> {
  const strangers: string[] = [];
  const errors: string[] = [];
  page.on("request", (request) => {
    const url = new URL(request.url());
    if (url.protocol.startsWith("http") && url.origin !== "http://127.0.0.1:5181") strangers.push(request.url());
  });
  page.on("pageerror", (error) => errors.push(error.message));
  page.on("console", (message) => {
    if (message.type() === "error") errors.push(message.text());
  });
  await page.goto("/");
  await ready(page);
  return { strangers, errors };
}

/** Drawn, checked and kept. */
export async function ready(page: Page): Promise<void> {
  await expect(page.locator("canvas[data-waiting=false]").first()).toBeAttached({ timeout: 30_000 });
  await expect(page.locator("#findings-title .count")).toBeAttached({ timeout: 30_000 });
  await expect(page.locator(".kept")).toHaveText(/^kept/);
}

/** Tab after tab until the thing has the focus, as somebody without a pointer does it. */
export async function tabTo(page: Page, target: Locator, key: "Tab" | "Shift+Tab" = "Tab"): Promise<void> {
  for (let presses = 0; presses < 150; presses++) {
    if (await target.evaluate((element) => element === document.activeElement).catch(() => false)) return;
    await page.keyboard.press(key);
  }
  throw new Error(`the keyboard never came to ${target}`);
}

export async function chooseColourway(page: Page, name: string): Promise<void> {
  const select = page.getByRole("combobox", { name: "Colourway" });
  await tabTo(page, select);
  for (let presses = 0; presses < 10; presses++) {
    if ((await select.locator("option:checked").textContent()) === name) return;
    await page.keyboard.press("ArrowDown");
  }
  throw new Error(`no colourway is called ${name}`);
}

/** What the screen reader was told last. */
export const told = (page: Page): Locator => page.locator("p.unseen[role=status]");

/** The fabric's middle as pixels, to tell whether it shows colours and whether it has changed. */
export function fabricPixels(page: Page): Promise<{ colours: number; sum: number }> {
  return page
    .locator("canvas")
    .first()
    .evaluate((element) => {
      const canvas = element as HTMLCanvasElement;
      const context = canvas.getContext("2d")!;
      const { data } = context.getImageData(
        canvas.width * 0.4,
        canvas.height * 0.2,
        canvas.width * 0.3,
        canvas.height * 0.6,
      );
      const colours = new Set<number>();
      let sum = 0;
      for (let at = 0; at < data.length; at += 4) {
        colours.add(((data[at]! >> 4) << 8) | ((data[at + 1]! >> 4) << 4) | (data[at + 2]! >> 4));
        sum = (sum * 31 + data[at]! + 3 * data[at + 1]! + 7 * data[at + 2]!) % 1_000_000_007;
      }
      return { colours: colours.size, sum };
    });
}

export const openText = (page: Page, text: string): Promise<void> =>
  page
    .locator("input[type=file]")
    .setInputFiles({ name: "opened.json", mimeType: "application/json", buffer: Buffer.from(text) });

/** The worked example's kind of project under names that nobody would type twice. */
export function longNames(): string {
  const name = (what: string, i: number) => `A name for ${what} that goes on and on, as names of mills do, number ${i}`;
  const letters = [..."ABCDEFGHIJK"];
  return JSON.stringify({
    format: "twostrand-project",
    version: 1,
    name: name("the project", 1),
    pattern: {
      name: name("the pattern", 1),
      gauge: { stitches: 28, rows: 30 },
      colours: letters.map((id, i) => ({ id, name: name("a colour", i), shade: { lab: [95 - 8 * i, 4, 8] } })),
      charts: [
        {
          id: "c1",
          name: name("the chart", 1),
          rows: letters.flatMap((id, i) => [`${id}${letters[(i + 5) % 11]}`.repeat(6), id.repeat(12)]),
        },
      ],
    },
    yarns: letters.map((_, i) => ({ id: `y${i}`, name: name("a yarn", i), shade: { lab: [90 - 8 * i, 0, 9] } })),
    colourways: [
      { id: "w1", name: name("a colourway", 1), yarns: Object.fromEntries(letters.map((id, i) => [id, `y${i}`])) },
    ],
  });
}
