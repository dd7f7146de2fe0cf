/** How the page bears itself around the journeys: any width, any name, help, paper, two tabs, the way back, the first load. */
import { expect, test } from "@playwright/test";
import { chooseColourway, longNames, openBench, openText, ready, tabTo, told } from "./journey.ts";

for (const [width, height] of [
  [390, 844],
  [820, 1180],
  [1440, 900],
] as const) {
  test(`fits ${width} pixels without scrolling sideways, every part within reach, however long the names`, async ({
    page,
  }) => {
    await page.setViewportSize({ width, height });
    await openBench(page);
    await openText(page, longNames());
    await expect(told(page)).toHaveText(/is open\.$/);
    await ready(page);
    // The page clips what sticks out, so its parts are asked one by one.
    const overflow = () =>
      page.evaluate(() =>
        Math.max(
          ...[".room", ".header", ".bench", ".distance"].map(
            (part) => document.querySelector(part)!.scrollWidth - window.innerWidth,
          ),
        ),
      );
    expect(await overflow()).toBeLessThanOrEqual(0);
    for (const part of ["ladder", "findings", "fabric"]) {
      const button = page.locator(`.panel-switch button[data-panel=${part}]`);
      if (await button.isVisible()) await button.click();
      await expect(page.locator(`[data-part=${part}]`)).toBeVisible();
      expect(await overflow()).toBeLessThanOrEqual(0);
      const cut = await page
        .locator(`[data-part=${part}]`)
        .evaluate((element) => element.scrollWidth - element.clientWidth);
      expect(cut).toBeLessThanOrEqual(1);
    }
    const small = await page.locator("button:visible, select:visible, summary:visible").evaluateAll((elements) =>
      elements
        .map((element) => ({ box: element.getBoundingClientRect(), name: element.outerHTML.slice(0, 80) }))
        .filter(({ box }) => box.width < 24 || box.height < 24)
        .map(({ name }) => name),
    );
    expect(small).toEqual([]);
  });
}

test("in a low window, as with type at twice its size, the fabric keeps its height and the page scrolls", async ({
  page,
}) => {
  await page.setViewportSize({ width: 720, height: 450 });
  await openBench(page);
  expect((await page.locator(".fabric-frame").boundingBox())!.height).toBeGreaterThan(280);
  await page.getByRole("slider").focus();
  await expect(page.getByRole("slider")).toBeInViewport();
});

test("what marks, ladder and V mean is told in its place; a first note can be closed and had again", async ({
  page,
}) => {
  await openBench(page);
  const note = page.getByRole("complementary", { name: "First of all" });
  await expect(note).toContainText("worked example");
  const caution = page.getByText("A model of ordinary eyesight, not tested on knitting; a swatch settles it.");
  await expect(caution).toHaveCount(1);
  await expect(caution).toBeVisible();
  await tabTo(page, note.getByRole("button"));
  await page.keyboard.press("Enter");
  await expect(note).toBeHidden();
  await expect(page.getByRole("combobox", { name: "Colourway" })).toBeFocused();
  for (const [summary, words] of [
    ["How to read the ladder", "changed places from light to dark"],
    ["How to read the findings", "under 1 it is lost, under 3 faint"],
  ] as const) {
    await expect(page.getByText(words)).toBeHidden();
    await tabTo(page, page.locator("summary", { hasText: summary }));
    await page.keyboard.press("Enter");
    await expect(page.getByText(words)).toBeVisible();
  }
  await expect(page.getByText("every way keeps its yarn")).toBeVisible();
  await page.reload();
  await ready(page);
  await expect(note).toBeHidden();
  await page.getByRole("button", { name: "Show the first note again" }).click();
  await expect(note).toBeVisible();
});

test("on a phone a mend that is dropped leads back to it, and a row that is shown takes the hand along", async ({
  page,
}) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await openBench(page);
  await chooseColourway(page, "second try");
  await page.getByRole("button", { name: "Larger stitches" }).click();
  await page.locator(".panel-switch button[data-panel=findings]").click();
  const mend = page.locator(".finding").first().locator(".mend").first();
  await mend.click();
  await expect(page.getByRole("button", { name: "Keep" })).toBeFocused();
  for (const side of ["before", "after"]) await expect(page.getByText(side, { exact: true })).toBeInViewport();
  await page.getByRole("button", { name: "Drop" }).click();
  await expect(mend).toBeFocused();
  const show = page.getByRole("button", { name: "Show row 68" });
  await show.click();
  await expect(page.getByRole("application")).toBeFocused();
  await page.locator(".panel-switch button[data-panel=findings]").click();
  await expect(show).toHaveAttribute("aria-pressed", "true");
  await page.setViewportSize({ width: 1440, height: 900 });
  await show.click();
  await expect(show).toHaveAttribute("aria-pressed", "false");
});

test("every step is undone, back to what was opened, and done again", async ({ page }) => {
  await openBench(page);
  const select = page.getByRole("combobox", { name: "Colourway" });
  await page.getByLabel("Project name").fill("Other name");
  await page.keyboard.press("Enter");
  await page.getByRole("button", { name: "Copy this colourway" }).click();
  await page.locator(".colourway summary").click();
  await page.getByRole("button", { name: "Rename" }).click();
  await page.getByLabel("Name of the colourway").fill("third");
  await page.keyboard.press("Enter");
  await expect(page.locator(".colourway summary")).toBeFocused();
  await page.getByRole("button", { name: /^Hold K, rowan/ }).click();
  await select.selectOption("second try");
  await page.locator(".colourway summary").click();
  await page.getByRole("button", { name: "Remove" }).click();
  await openText(page, longNames());
  await expect(page.getByLabel("Project name")).toHaveValue(/^A name/);
  for (let step = 0; step < 6; step++) await page.keyboard.press("Control+z");
  await expect(page.getByLabel("Project name")).toHaveValue("Weather station vest");
  await expect(select.locator("option")).toHaveText(["first snow", "second try", "market-day brights"]);
  await expect(page.getByRole("button", { name: "Undo", exact: true })).toBeDisabled();
  for (let step = 0; step < 5; step++) await page.keyboard.press("Control+y");
  await expect(page.getByLabel("Project name")).toHaveValue("Other name");
  await expect(select.locator("option")).toHaveText(["first snow", "market-day brights", "third"]);
});

test("two tabs hold one bench", async ({ page, context }) => {
  await openBench(page);
  const other = await context.newPage();
  await openBench(other);
  await page.getByLabel("Project name").fill("From the first tab");
  await page.keyboard.press("Enter");
  await expect(other.getByLabel("Project name")).toHaveValue("From the first tab");
  // What another tab did is not this one's to undo.
  await expect(other.getByRole("button", { name: "Undo", exact: true })).toBeDisabled();
});

test("prints the fabric whole, the ladder and the findings, and no controls", async ({ page }) => {
  await openBench(page);
  await chooseColourway(page, "second try");
  await expect(page.locator("#findings-title .count")).toContainText("1 fault");
  await page.emulateMedia({ media: "print" });
  await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
  for (const part of [".paper-head", ".paper-fabric", ".rails", ".finding >> nth=0", "table"])
    await expect(page.locator(part)).toBeVisible();
  await expect(page.locator(".paper-head")).toContainText("second try");
  for (const part of [".header", ".first-note", ".distance", ".fabric-tools", ".ways", ".sheet"])
    await expect(page.locator(part)).toBeHidden();
  const colours = await page.locator(".paper-fabric").evaluate((element) => {
    const canvas = element as HTMLCanvasElement;
    const { data } = canvas.getContext("2d")!.getImageData(0, 0, canvas.width, canvas.height);
    const found = new Map<number, number>();
    for (let at = 0; at < data.length; at += 4)
      if (data[at + 3] === 255) {
        const colour = (data[at]! << 16) | (data[at + 1]! << 8) | data[at + 2]!;
        found.set(colour, (found.get(colour) ?? 0) + 1);
      }
    return [...found.values()].filter((count) => count > 500).length;
  });
  // Twelve yarns are in it: eleven chart colours, and Pale oat in row 68.
  expect(colours).toBeGreaterThanOrEqual(12);
});

test("of scripts, less than 230 KB gzip come before first use, and the yarn list's when it is wanted", async ({
  page,
}) => {
  const { gzipSync } = await import("node:zlib");
  const scripts = new Map<string, number>();
  page.context().on("response", async (response) => {
    if (!new URL(response.url()).pathname.endsWith(".js") || response.fromServiceWorker()) return;
    const body = await response.body().catch(() => null);
    if (body) scripts.set(response.url(), gzipSync(body).length);
  });
  await page.addInitScript(() => Object.defineProperty(navigator, "serviceWorker", { value: undefined }));
  await openBench(page);
  const before = [...scripts.keys()];
  expect(before.some((url) => url.includes("jobs.worker"))).toBe(true);
  expect(before.some((url) => url.includes("YarnPicker"))).toBe(false);
  expect([...scripts.values()].reduce((sum, size) => sum + size, 0)).toBeLessThanOrEqual(230_000);
  await page.locator(".rung").first().focus();
  await expect.poll(() => [...scripts.keys()].some((url) => url.includes("YarnPicker"))).toBe(true);
});
