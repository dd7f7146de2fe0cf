/** How a chart is built, by keyboard alone: a band corrected and taken back, bands set in line, strands followed, a stitch asked about; and a large chart. */
import { readFileSync } from "node:fs";
import AxeBuilder from "@axe-core/playwright";
import { expect, test, type Page } from "@playwright/test";
import { openBench, openText, tabTo, told } from "./journey.ts";

async function openStructure(page: Page): Promise<void> {
  const pattern = page.getByRole("button", { name: "Pattern", exact: true });
  await tabTo(page, pattern);
  await page.keyboard.press("Enter");
  await tabTo(page, page.getByRole("button", { name: "How it is built" }));
  await page.keyboard.press("Enter");
  await expect(page.locator(".structure-bands")).toBeVisible();
}

/** The part of the panel that so many presses of an arrow lead to. */
async function toPart(page: Page, name: string): Promise<void> {
  const chosen = page.getByRole("group", { name: "Shown" }).getByRole("radio", { checked: true });
  await tabTo(page, chosen, "Shift+Tab");
  for (let presses = 0; presses < 4; presses++) {
    if (await page.getByRole("radio", { name }).isChecked()) return;
    await page.keyboard.press("ArrowRight");
  }
}

const axe = async (page: Page): Promise<void> => {
  const { violations } = await new AxeBuilder({ page }).include("main").analyze();
  expect(violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])).toEqual([]);
};

test("a band is corrected, and her word taken back", async ({ page }) => {
  const { errors } = await openBench(page);
  await openStructure(page);
  // Hoar is the main colour; she says another, and takes it back.
  const main = page.locator(".structure-panel").getByRole("combobox", { name: "Main colour" });
  await tabTo(page, main);
  await page.keyboard.press("ArrowDown");
  await expect(told(page)).toHaveText("cloud is the main colour.");
  await expect(page.locator(".structure-colours")).toHaveText(/^ ?Cloud is the main colour; in contrast to it hoar,/);
  await page.keyboard.press("ControlOrMeta+z");
  await expect(page.locator(".structure-colours")).toHaveText(/^ ?Hoar is the main colour/);

  const band = page.locator(".structure-band", { hasText: "cairns again" });
  await tabTo(page, band);
  await page.keyboard.press("Enter");
  await expect(told(page)).toHaveText("cairns again: a motif, repeat of 8, mirrored.");
  await expect(page.locator(".structure-open")).toContainText("The same as cairns, rows 36–42");
  await axe(page);

  const repeat = page.getByLabel("Repeat, stitches");
  await tabTo(page, repeat);
  await repeat.press("ControlOrMeta+a");
  await page.keyboard.type("4");
  await page.keyboard.press("Enter");
  await expect(told(page)).toHaveText("cairns again repeats every 4 stitches.");
  const takeBack = page.getByRole("button", { name: "Take back your word for its repeat" });
  await expect(takeBack).toBeVisible();
  await tabTo(page, takeBack);
  await page.keyboard.press("Enter");
  await expect(takeBack).toBeHidden();
  await expect(repeat).toHaveValue("8");

  const part = page.getByRole("button", { name: "Part it" });
  const row = page.getByLabel("A new band from row");
  await tabTo(page, row);
  await row.press("ControlOrMeta+a");
  await page.keyboard.type("107");
  await tabTo(page, part);
  await page.keyboard.press("Enter");
  await expect(page.locator(".structure-rows", { hasText: "rows 104–106" })).toBeVisible();
  await expect(page.locator(".structure-rows", { hasText: "rows 107–110" })).toBeVisible();
  await page.keyboard.press("ControlOrMeta+z");
  await expect(page.locator(".structure-rows", { hasText: "rows 104–110" })).toBeVisible();
  expect(errors).toEqual([]);
});

test("bands are set in line, strands followed, a stitch asked about", async ({ page }) => {
  const { errors } = await openBench(page);
  await openStructure(page);
  await toPart(page, "Over one another");
  const pair = page.locator(".structure-pair", { hasText: "Last frost over slope" });
  await tabTo(page, pair);
  await page.keyboard.press("Enter");
  await expect(pair).toContainText("Lined up");
  await tabTo(page, page.getByRole("button", { name: /Last frost 1 stitch to the left/ }));
  await page.keyboard.press("Enter");
  const keep = page.getByRole("button", { name: "Keep" });
  await expect(keep).toBeFocused();
  await expect(pair).toContainText("Offset by half a repeat");
  await page.keyboard.press("Enter");
  await expect(told(page)).toHaveText("Last frost 1 stitch to the left: half a repeat off slope.");
  await expect(pair).toBeFocused();
  await axe(page);

  await toPart(page, "Strands");
  await expect(page.locator(".structure-panel")).toContainText("No strand travels farther than that.");
  const limit = page.getByLabel("A strand may travel, cm");
  await tabTo(page, limit);
  await limit.press("ControlOrMeta+a");
  await page.keyboard.type("1.5");
  await page.keyboard.press("Enter");
  await expect(page.locator(".structure-strands button").first()).toContainText("catch it behind column");
  await tabTo(page, page.getByRole("button", { name: "Take back your word for how far a strand may travel" }));
  await page.keyboard.press("Enter");
  await expect(page.locator(".structure-strands")).toBeHidden();

  await toPart(page, "One stitch");
  const row = page.getByLabel("Row", { exact: true });
  await tabTo(page, row);
  await row.press("ControlOrMeta+a");
  await page.keyboard.type("120");
  await page.keyboard.press("Enter");
  // A plain row of 24: one stitch in another colour is a strand that passes the other 23.
  await expect(page.locator(".structure-panel")).toContainText("would pass 23 stitches instead of 0");
  await tabTo(page, page.getByRole("button", { name: "Knit row 120, column 1 so" }));
  await page.keyboard.press("Enter");
  await expect(told(page)).toHaveText(/^row 120, column 1 knitted in /);
  expect(errors).toEqual([]);
});

test("a chart of 400 by 400 in thirty bands is shown, band by band", async ({ page }) => {
  const vest = JSON.parse(readFileSync("examples/weather-station-vest.twostrand.json", "utf8"));
  const [chart] = vest.pattern.charts;
  const wide = chart.rows.map((text: string) => text.repeat(17).slice(0, 400));
  const rows = Array.from({ length: 400 }, (_, index) => wide[(index + wide.length * 9 - 400) % wide.length]);
  vest.pattern.charts = [{ id: "c1", name: "large", rows }];
  delete vest.pattern.sections;
  delete vest.swatches;
  delete vest.knitting;
  for (const colourway of vest.colourways) {
    delete colourway.changes;
    delete colourway.overStitched;
    delete colourway.wish;
  }
  const { errors } = await openBench(page);
  await openText(page, JSON.stringify(vest));
  await expect(told(page)).toHaveText(/is open\.$/);
  await page.getByRole("button", { name: "Pattern", exact: true }).click();
  await page.getByRole("button", { name: "How it is built" }).click();
  await expect(page.locator(".structure-band").first()).toBeVisible({ timeout: 20_000 });
  expect(await page.locator(".structure-band").count()).toBeGreaterThanOrEqual(30);
  await page.locator(".structure-band").nth(20).click();
  await expect(page.locator(".structure-form")).toBeVisible();
  await page.getByRole("button", { name: "Larger stitches" }).click();
  expect(errors).toEqual([]);
});
