/** What draws the eye, every yarn tried in one place, and the help beside each number: by keyboard, and with far more than usual. */
import AxeBuilder from "@axe-core/playwright";
import { expect, test, type Page } from "@playwright/test";
import { chooseColourway, openBench, openText, ready, tabTo, told } from "./journey.ts";

/** Of one part: what is scrolled half away elsewhere has half its size to the rules. */
async function violations(page: Page, part: string): Promise<string[]> {
  const { violations: found, passes } = await new AxeBuilder({ page })
    .include(part)
    .withTags(["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"])
    .analyze();
  expect(passes.length).toBeGreaterThan(0);
  return found.map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(" ")).join(", ")}`);
}

test("by keyboard: the weights are read and explained, and a band shows its own and itself on the fabric", async ({
  page,
}) => {
  const { errors } = await openBench(page);
  await chooseColourway(page, "market-day brights");
  await expect(page.locator(".finding")).toContainText("Marigold takes over in 5 bands");
  await tabTo(page, page.getByRole("link", { name: "Weights" }));
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { name: "What draws the eye" })).toBeFocused();
  await expect(page.locator(".weights-told")).toContainText("Marigold in E");
  // The weights and the finding are two tellings of one number.
  const [share, was] = await page.locator(".finding .numbers dd").allTextContents();
  const marigold = page.locator(".weight", { hasText: "E · Marigold" }).first();
  await expect(marigold.locator(".weight-share").first()).toHaveText(share!);
  await expect(marigold.locator(".weight-share.then")).toHaveText(`in the pattern ${was}`);
  await expect(marigold).toContainText("in 5 bands over");

  const mark = page.locator(".weights .number-help-button").first();
  await tabTo(page, mark);
  await page.keyboard.press("Enter");
  const help = page.getByRole("dialog", { name: "What these numbers mean" });
  await expect(help).toBeFocused();
  await expect(help).toContainText("An estimate of a colour’s share of what draws the eye");
  await expect(help).toContainText("Tested on nobody");
  await tabTo(page, help.getByRole("button", { name: "Recurs" }));
  await page.keyboard.press("Enter");
  await expect(help).toContainText("Counted in the chart, row by row.");
  expect(await violations(page, ".number-page")).toEqual([]);
  await page.keyboard.press("Escape");
  await expect(help).toBeHidden();
  await expect(mark).toBeFocused();

  const slope = page.locator(".band-button", { hasText: "slope" });
  await expect(slope).toContainText("Marigold leads, as in the pattern");
  await tabTo(page, slope);
  await page.keyboard.press("Enter");
  await expect(slope).toHaveAttribute("aria-expanded", "true");
  await expect(told(page)).toHaveText(/^slope: from afar .*; Marigold leads/);
  await expect(page.locator(".readout-row")).toContainText("Row 117");
  const more = page.locator(".band-more");
  await expect(more).toContainText(/It is strong at 1.5\s*m.*reads past 6\s*m/);
  await expect(more).toContainText("lies alone on");
  expect(await violations(page, ".weights")).toEqual([]);

  // The distance is followed by every number here.
  await tabTo(page, page.getByRole("slider"));
  await page.keyboard.press("End");
  await expect(page.locator(".weights-key").first()).toContainText(/at 6\s*m/);
  await expect(more).toContainText(/at 6\s*m/);
  expect(errors).toEqual([]);
});

test("by keyboard: a yarn is found by what it would do, taken, and put back", async ({ page }) => {
  const { errors } = await openBench(page);
  await chooseColourway(page, "market-day brights");
  const rung = page.getByRole("button", { name: /^E, scree/ });
  await tabTo(page, rung);
  await expect(rung).toHaveAccessibleName(/Knitted in Marigold/);
  await page.keyboard.press("Enter");
  const search = page.getByRole("combobox", { name: "Your yarns" });
  await expect(search).toBeFocused();
  const picker = page.getByRole("dialog", { name: "A yarn for E" });
  await expect(picker).toContainText(/The pattern’s own, at 1.5\s*m: /);
  const options = picker.getByRole("option");
  await expect(options.first()).toContainText(/rows? faint|rows? lost|all rows show/);
  await expect(picker.locator(".yarn-item", { hasText: "Marigold" })).toContainText("as much again");

  await tabTo(page, picker.getByRole("radio", { name: "is nearest in lightness" }));
  for (let presses = 0; presses < 2; presses++) await page.keyboard.press("ArrowRight");
  await expect(picker.getByRole("radio", { name: "shows best" })).toBeChecked();
  // Best first: the yarns in view never lose fewer rows than the one above them.
  const lost = (await options.allTextContents()).map((text) => Number(/(\d+) rows? lost/.exec(text)?.[1] ?? 0));
  expect(lost.length).toBeGreaterThan(3);
  expect(lost).toEqual(lost.toSorted((a, b) => a - b));
  expect(await violations(page, ".yarn-picker")).toEqual([]);

  await tabTo(page, search, "Shift+Tab");
  await page.keyboard.press("ArrowDown");
  const best = (await options.first().locator(".yarn-item-name").textContent())!;
  await expect(options.first()).toHaveAttribute("data-focused", "true");
  await page.keyboard.press("Enter");
  await expect(picker).toBeHidden();
  await expect(told(page)).toHaveText(`${best} for E.`);
  await expect(rung).toBeFocused();
  await expect(rung).toHaveAccessibleName(new RegExp(`Knitted in ${best}`));
  await page.keyboard.press("Control+z");
  await expect(rung).toHaveAccessibleName(/Knitted in Marigold/);
  expect(errors).toEqual([]);
});

/** Fifteen colours in thirty bands, and five hundred yarns of every lightness and hue. */
function farMore(): string {
  const letters = [..."ABCDEFGHIJKLMNO"];
  const ground = (index: number): string => letters[1 + ((index * 5) % 14)]!;
  const hue = (index: number): readonly [number, number] => [30 * Math.cos(index), 30 * Math.sin(index)];
  return JSON.stringify({
    format: "twostrand-project",
    version: 1,
    name: "Far more than usual",
    pattern: {
      gauge: { stitches: 28, rows: 30 },
      colours: letters.map((id, i) => ({ id, shade: { lab: [92 - 5 * i, ...hue(i)] } })),
      charts: [
        {
          id: "c1",
          rows: Array.from({ length: 30 }, (_, i) => {
            const other = ground(i);
            return [`A${other}`.repeat(6), `AA${other}${other}`.repeat(3), `${other}A`.repeat(6), "A".repeat(12)];
          }).flat(),
        },
      ],
    },
    yarns: Array.from({ length: 500 }, (_, i) => ({
      id: `y${i}`,
      name: `Leftover ${i}`,
      shade: { lab: [8 + ((i * 37) % 88), ...hue(i)] },
    })),
    colourways: [{ id: "w1", name: "first", yarns: Object.fromEntries(letters.map((id, i) => [id, `y${7 * i}`])) }],
  });
}

test("five hundred yarns, fifteen colours and thirty bands stay easy to read on a phone", async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  const { errors } = await openBench(page);
  await openText(page, farMore());
  await expect(told(page)).toHaveText(/is open\.$/);
  await ready(page);
  await page.locator(".panel-switch button[data-panel=findings]").click();
  await page.getByRole("link", { name: "Weights" }).click();
  const weights = page.locator(".weights");
  expect(await weights.locator(".weight").count()).toBeLessThanOrEqual(15);
  await expect(weights.locator(".band")).toHaveCount(7);
  await weights.getByRole("button", { name: "23 more bands below" }).click();
  await expect(weights.locator(".band")).toHaveCount(30);
  await weights.locator(".band-button").last().click();
  await weights.getByRole("button", { name: /^Show rows .* on the fabric$/ }).click();
  await expect(page.locator("[data-part=fabric]")).toBeVisible();
  await expect(told(page)).toHaveText(/framed\.$/);

  await page.locator(".panel-switch button[data-panel=ladder]").click();
  await page.getByRole("button", { name: /^C, / }).click();
  const picker = page.getByRole("dialog", { name: "A yarn for C" });
  const options = picker.getByRole("option");
  await expect(options.first()).toContainText(/faint|lost|show/);
  // Only what is in view is on the page.
  expect(await options.count()).toBeLessThan(40);
  await page.keyboard.type("over 499");
  await expect(options).toHaveCount(1);
  await expect(options).toContainText("Leftover 499");
  const box = (await picker.boundingBox())!;
  expect(box.x).toBeGreaterThanOrEqual(0);
  expect(box.x + box.width).toBeLessThanOrEqual(390);
  expect(errors).toEqual([]);
});
