/** A chart from text, by keyboard: pasted, read while it is written, put right, and taken on. */
import AxeBuilder from "@axe-core/playwright";
import { expect, test, type Page } from "@playwright/test";
import { openBench, tabTo } from "./journey.ts";

const ROWS = [
  "Rnd 1: *k3 MC, k1 CC1; rep from * to end.",
  "Rnd 2: *k2 MC, k2 CC1; rep from * to end.",
  "Rnd 3: k all MC.",
  "Rnd 4: k2 CC1, purse, k1 MC.",
].join("\n");

async function openDoor(page: Page): Promise<void> {
  await openBench(page);
  const pattern = page.getByRole("button", { name: "Pattern", exact: true });
  await tabTo(page, pattern);
  await page.keyboard.press("Enter");
  const door = page.getByRole("button", { name: "From text" });
  await expect(door).toBeVisible();
  await tabTo(page, door);
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { name: "A chart from text" })).toBeFocused();
}

async function noViolations(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).withTags(["wcag2a", "wcag2aa", "wcag22aa"]).analyze();
  expect(violations.map(({ id, nodes }) => [id, nodes.map(({ target }) => target)])).toEqual([]);
}

test("rows in words are read while they are written, what is amiss leads to its line, and the chart goes into the pattern", async ({
  page,
}) => {
  await openDoor(page);
  const field = page.getByRole("textbox", { name: "The chart as text" });
  await tabTo(page, field);
  await page.keyboard.insertText(ROWS);
  await expect(page.getByRole("status").filter({ hasText: "One chart is read." })).toBeVisible();
  await expect(page.getByText("4 stitches × 4 rows")).toBeVisible();
  await expect(page.getByText(/Row 4: expected stitches/)).toBeVisible();
  await noViolations(page);

  // What is written waits for her when she has looked at something else.
  await page.getByRole("button", { name: "Back to the pattern" }).click();
  await page.getByRole("button", { name: "From text" }).click();
  await expect(field).toHaveValue(ROWS);
  await expect(page.getByText("4 stitches × 4 rows")).toBeVisible();

  // The doubt leads to its line, which is put right there and then.
  const doubt = page.getByRole("listitem").filter({ hasText: "Row 4: expected stitches" });
  const line = doubt.getByRole("button", { name: "Line 4" });
  await tabTo(page, line);
  await page.keyboard.press("Enter");
  await expect(field).toBeFocused();
  await page.keyboard.insertText("Rnd 4: k2 CC1, k2 MC.\nMC: cream\nCC1 = #3b4a63 slate");
  await expect(doubt).toHaveCount(0);
  const key = page.getByRole("list", { name: "Key of the chart" });
  await expect(key).toContainText("CC1: slate");
  await expect(key).toContainText("MC: cream, a shade by its name");

  await page.keyboard.press("Control+Enter");
  const name = page.getByRole("textbox", { name: "Name of the chart" });
  await expect(name).toBeFocused();
  await page.keyboard.press("Control+a");
  await page.keyboard.type("Cuff border");
  await noViolations(page);
  const into = page.getByRole("radio", { name: "into this pattern" });
  await tabTo(page, page.getByRole("radio", { name: "into a new project" }));
  await page.keyboard.press("ArrowRight");
  await expect(into).toBeChecked();
  await page.keyboard.press("Enter");
  await expect(page.getByText("Cuff border").first()).toBeVisible();
  await expect(page.getByRole("heading", { name: "A chart from text" })).toHaveCount(0);
  // What has become a chart is not written there any more.
  await page.getByRole("button", { name: "From text" }).click();
  await expect(field).toHaveValue("");
  // A file takes the place of what is written, and the keys for it give that back.
  await tabTo(page, field);
  await page.keyboard.insertText("ABAB");
  await page.locator("input[aria-label='Chart as text']").setInputFiles({ name: "rows.txt", mimeType: "text/plain", buffer: Buffer.from("AB\nBA\n") }); // prettier-ignore
  await expect(field).toHaveValue("AB\nBA\n");
  await page.keyboard.press("ControlOrMeta+Z");
  await expect(field).toHaveValue("ABAB");
});

test("parts of one chart are put together, on a telephone", async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await openDoor(page);
  const rows = ["ABBABA", "BAABAB", "AABBAA", "BBAABB", "ABABAA", "BABBAB", "AAABBB", "BBBABA"];
  const numbered = (from: number, to: number): string =>
    rows
      .slice(from, to)
      .map((row, index) => `${rows.length - from - index} ${row}`)
      .join("\n");
  await tabTo(page, page.getByRole("textbox", { name: "The chart as text" }));
  await page.keyboard.insertText(`${numbered(0, 4)}\n\n${numbered(3, 8)}\nA = #ffffff\nB = #203040\n`);
  await expect(page.getByText("2 charts are read.")).toBeVisible();
  const together = page.getByRole("checkbox", { name: /They look like parts of one chart of 6 × 8/ });
  await tabTo(page, together);
  await page.keyboard.press("Space");
  await noViolations(page);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
  await tabTo(page, page.getByRole("button", { name: "Use this chart" }));
  await page.keyboard.press("Enter");
  await expect(page.getByText("6 stitches × 8 rows")).toBeVisible();
  await expect(page.getByRole("textbox", { name: "Name of the chart" })).toBeFocused();
});
