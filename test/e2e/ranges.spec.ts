/** What is not known stays to be seen: bars on the ladder, words for those who hear it, a yarn worth measuring, cautions about the wool. */
import { readFileSync } from "node:fs";
import AxeBuilder from "@axe-core/playwright";
import { expect, test } from "@playwright/test";
import { chooseColourway, openBench, openText, tabTo } from "./journey.ts";

/** They come when a hand is there and nothing that follows it is waited for any more. */
const LATER = { timeout: 30_000 };

test("the ladder shows how light each yarn may be, and says it", async ({ page }) => {
  const { errors } = await openBench(page);
  await page.keyboard.press("Tab");
  // Sea mist has L* 73 and 3 to either side in ΔE00; light begins at 72.
  const bar = page.locator('[data-range="C"]');
  await expect(bar).toBeAttached(LATER);
  const limits = await page
    .locator(".limit")
    .evaluateAll((lines) => lines.map((line) => Number(line.getAttribute("y1"))));
  const [top, bottom] = await bar.evaluate((line) => ["y1", "y2"].map((end) => Number(line.getAttribute(end))));
  expect(limits.some((limit) => limit > top! && limit < bottom!)).toBe(true);
  await expect(page.locator(".rung").nth(2)).toHaveAccessibleDescription(
    "L* likely 70 to 76; of which class is open: light or light-medium.",
  );
  expect(errors).toEqual([]);
});

test("two yarns whose order nobody knows are said to be so", async ({ page }) => {
  await openBench(page);
  const project = JSON.parse(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")) as {
    yarns: { id: string; shade: object }[];
  };
  // Storm (F) has L* 44.5 and Dusk (G) 36.5; known to within 9 they may be either.
  for (const yarn of project.yarns)
    if (yarn.id === "y06" || yarn.id === "y07") yarn.shade = { ...yarn.shade, uncertainty: 9 };
  await openText(page, JSON.stringify(project));
  await page.keyboard.press("Tab");
  await expect(page.getByText("Storm (F) and Dusk (G) may change places")).toBeVisible(LATER);
});

test("by keys: the yarn worth measuring is named, and cautions open with the home test", async ({ page }) => {
  const { errors } = await openBench(page);
  await chooseColourway(page, "second try");
  await expect(page.getByRole("list", { name: "Shades worth measuring" })).toContainText(
    /Measuring Fog bank would likely settle \d+ of the \d+ rows in doubt/,
    LATER,
  );
  const summary = page.locator(".cautions-of-wool summary");
  await expect(summary).toContainText("bleeding, dye lots, skin");
  await expect(page.getByText("may bleed into")).toBeHidden();
  await tabTo(page, summary);
  await page.keyboard.press("Enter");
  await expect(page.getByText("may bleed into Oatmeal, Pale oat and Fog bank")).toBeVisible();
  await expect(page.getByText("Twist 25–30 cm of each strong colour with a white strand")).toBeVisible();
  await expect(page.getByText("may irritate the skin, most at neck and cuffs")).toBeVisible();
  const { violations } = await new AxeBuilder({ page }).include(".wool").analyze();
  expect(violations).toEqual([]);
  expect(errors).toEqual([]);
});
