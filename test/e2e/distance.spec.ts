/** Journeys over the distance: picture, gutter, findings and weights are of one and the same, whichever eyes look. */
import { expect, test, type Page } from "@playwright/test";
import { chooseColourway, fabricPixels, openBench, tabTo } from "./journey.ts";

const DISTANCE_IN_TEXT = /(?<=(?:at|from) )[\d.]+(?=\u202f?\s?m\b)/;

/** From now on every frame is looked at; each in which two parts of the page speak of different distances is noted. */
async function watchFrames(page: Page): Promise<() => Promise<{ mixed: string[]; frames: number; seen: string[] }>> {
  await page.evaluate(() => {
    const notes = { mixed: [] as string[], frames: 0, seen: [] as string[] };
    Object.assign(window, { notes });
    const look = () => {
      requestAnimationFrame(look);
      const canvas = document.querySelector<HTMLElement>(".fabric-scroll canvas");
      // Out of sight it cannot contradict.
      if (!canvas?.checkVisibility()) return;
      const picture = canvas.dataset.pictureFrom;
      const words = document.querySelector<HTMLElement>(".readout-row")?.dataset.wordsFrom;
      const row = /(?<= at )[\d.]+/.exec(document.querySelector(".readout-row p")?.textContent ?? "")?.[0];
      const weights = /(?<= at )[\d.]+/.exec(document.querySelector(".weights-key")?.textContent ?? "")?.[0];
      if (picture === undefined || picture === "at hand") return;
      notes.frames++;
      if (!notes.seen.includes(picture)) notes.seen.push(picture);
      // Rounded for reading: 1.35 m is told as 1.4 m, or 1.3 m where that is the nearer number that a computer holds.
      const rounded = (text: string | undefined) =>
        text !== undefined && Math.abs(Number(text) - Number(words)) > 0.051;
      if (picture !== words || rounded(row) || rounded(weights))
        notes.mixed.push(`picture ${picture}, words ${words}, row ${row}, weights ${weights}`);
    };
    requestAnimationFrame(look);
  });
  return () =>
    page.evaluate(() => (window as unknown as { notes: { mixed: string[]; frames: number; seen: string[] } }).notes);
}

test("by keyboard from 0.5 to 6 m, as seen: no frame speaks of two distances, worked out ahead or not", async ({
  page,
}) => {
  const { errors } = await openBench(page);
  await chooseColourway(page, "second try");
  await page.getByRole("switch", { name: "as seen" }).check();
  const picture = page.locator(".fabric-scroll canvas");
  await expect(picture).toHaveAttribute("data-picture-from", "1.5", { timeout: 20_000 });
  await page.getByRole("button", { name: "Show row 68" }).press("Enter");
  await expect(page.locator(".readout-row")).toContainText("Row 68:");

  const notes = await watchFrames(page);
  const slider = page.getByRole("slider");
  await tabTo(page, slider);
  await page.keyboard.press("Home");
  await expect(page.locator(".distance-metres")).toHaveText("0.5\u202fm");
  await expect(picture).toHaveAttribute("data-picture-from", "0.5", { timeout: 20_000 });
  const near = await fabricPixels(page);
  const nearMarks = await page.locator(".fabric-count").textContent();
  for (let step = 0; step < 26; step++) await page.keyboard.press("ArrowRight");
  // The hand's place is told at once, whatever is still worked out.
  await expect(page.locator(".distance-metres")).toHaveText("6\u202fm");
  await expect(picture).toHaveAttribute("data-picture-from", "6", { timeout: 20_000 });
  await expect(page.locator(".readout-row p").first()).toContainText("at 6\u202fm");
  await expect(page.locator(".weights-key").first()).toContainText("at 6\u202fm");
  await expect(page.locator(".fabric-count")).not.toHaveText(nearMarks!);
  const finding = page.locator(".finding p").filter({ hasText: DISTANCE_IN_TEXT }).first();
  expect(DISTANCE_IN_TEXT.exec((await finding.textContent())!)![0]).toBe("6");
  expect((await fabricPixels(page)).sum).not.toBe(near.sum);

  // What lies nearest is worked out next.
  for (const at of ["5.5", "5", "4.5", "4"]) {
    await page.keyboard.press("ArrowLeft");
    await expect(picture).toHaveAttribute("data-picture-from", at, { timeout: 20_000 });
  }
  const { mixed, frames, seen } = await notes();
  expect(mixed).toEqual([]);
  expect(frames).toBeGreaterThan(20);
  expect(seen).toEqual(expect.arrayContaining(["0.5", "6"]));
  expect(errors).toEqual([]);
});

test("eyes that tell fewer colours apart: chosen by keyboard, told to be a model, and kept", async ({ page }) => {
  await openBench(page);
  await page.getByRole("switch", { name: "as seen" }).check();
  const picture = page.locator(".fabric-scroll canvas");
  await expect(picture).toHaveAttribute("data-picture-from", "1.5", { timeout: 20_000 });
  const ordinary = await fabricPixels(page);
  const notes = await watchFrames(page);
  const eyes = page.getByRole("combobox", { name: "Eyes" });
  await tabTo(page, eyes);
  await page.keyboard.press("w");
  await expect(eyes).toHaveValue("protan");
  await expect(eyes).toHaveAccessibleDescription(/Machado and others 2009/);
  await expect.poll(async () => (await fabricPixels(page)).sum, { timeout: 20_000 }).not.toBe(ordinary.sum);
  await page.getByRole("slider").focus();
  await page.keyboard.press("ArrowRight");
  await expect(picture).toHaveAttribute("data-picture-from", "1.65", { timeout: 20_000 });
  expect((await notes()).mixed).toEqual([]);

  await eyes.selectOption("tritan");
  await expect(page.locator(".eyes-note")).toContainText("least sure");
  const wholly = await fabricPixels(page);
  const far = page.getByRole("combobox", { name: "How far" });
  await far.selectOption("a little");
  await expect.poll(async () => (await fabricPixels(page)).sum, { timeout: 20_000 }).not.toBe(wholly.sum);
  // What is looked at otherwise than by ordinary eyes is still so after coming back.
  await page.waitForTimeout(400);
  await page.reload();
  await expect(eyes).toHaveValue("tritan");
  await expect(far).toHaveValue("0.3");
});

test("on a phone the hand moves beside the findings, and the fabric comes back at the same distance", async ({
  page,
}) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await openBench(page);
  await page.getByRole("switch", { name: "as seen" }).check();
  const picture = page.locator(".fabric-scroll canvas");
  await expect(picture).toHaveAttribute("data-picture-from", "1.5", { timeout: 20_000 });
  const notes = await watchFrames(page);
  await page.getByRole("button", { name: /^Findings/ }).click();
  await page.getByRole("slider").press("End");
  await expect(page.locator(".readout-row")).toHaveAttribute("data-words-from", "6");
  await page.getByRole("button", { name: "Fabric" }).click();
  await expect(picture).toHaveAttribute("data-picture-from", "6", { timeout: 20_000 });
  expect((await notes()).mixed).toEqual([]);
});

for (const width of [390, 1440])
  test(`whose eyes look is within reach at ${width} pixels, without scrolling sideways`, async ({ page }) => {
    await page.setViewportSize({ width, height: 844 });
    await openBench(page);
    const eyes = page.getByRole("combobox", { name: "Eyes" });
    await eyes.selectOption("tritan");
    await expect(page.locator(".eyes-note")).toBeVisible();
    const box = (await eyes.boundingBox())!;
    expect(box.x).toBeGreaterThanOrEqual(0);
    expect(box.x + box.width).toBeLessThanOrEqual(width);
    expect(box.width).toBeGreaterThan(80);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
  });
