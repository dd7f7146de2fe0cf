/** An evening at the bench: "I don't like that yellow", to a colourway that is kept; and what she is told when she asks too much. */
import { expect, test } from "@playwright/test";
import { chooseColourway, openBench, tabTo, told } from "./journey.ts";

test("from a yellow that she does not like to a colourway that is kept, by keyboard", async ({ page }) => {
  const { errors, strangers } = await openBench(page);
  await chooseColourway(page, "market-day brights");
  await expect(page.locator(".finding").first()).toContainText("Marigold");
  const before = await page
    .locator("select[aria-label='Colourway'], .colourway select")
    .first()
    .locator("option")
    .count();

  await tabTo(page, page.getByRole("button", { name: "Make wishes" }));
  await page.keyboard.press("Enter");
  const form = page.getByRole("dialog", { name: /^Wishes for/ });
  await tabTo(page, form.getByLabel("Find a yarn"));
  await page.keyboard.type("marigold");
  await tabTo(page, form.getByLabel("What Marigold may be used for"));
  await page.keyboard.type("not");
  await expect(told(page)).toHaveText("Marigold: not this one.");
  await page.keyboard.press("Escape");

  await tabTo(page, page.getByRole("button", { name: "Find ways" }));
  await page.keyboard.press("Enter");
  await expect(page.getByRole("button", { name: "Find ways again" })).toBeVisible({ timeout: 60_000 });
  const first = page.locator(".way").first();
  await expect(first).toContainText("The checks find nothing against it");
  await tabTo(page, first.locator(".way-details summary"));
  await page.keyboard.press("Enter");
  await expect(first.locator(".way-places li")).toHaveCount(11);
  await expect(first.locator(".way-terms")).toContainText("Lightness");

  await tabTo(page, page.getByRole("button", { name: "See them side by side" }), "Shift+Tab");
  await page.keyboard.press("Enter");
  const beside = page.getByRole("dialog", { name: "Side by side" });
  await expect(beside.locator(".side-row > li")).toHaveCount((await page.locator(".way").count()) + 1);
  await expect(beside.locator("h3").first()).toHaveText("Now: market-day brights");
  await tabTo(page, beside.getByRole("button", { name: /^Try it/ }).first());
  await page.keyboard.press("Enter");
  await expect(beside).toBeHidden();
  await expect(page.getByText("Findings: 1 before, 0 after.")).toBeVisible();
  await tabTo(page, page.getByRole("button", { name: /^Keep/ }));
  await page.keyboard.press("Enter");
  await expect(told(page)).toHaveText(/^Kept: A new colourway/);
  // The one that she did not like is still there, and one more.
  await expect(page.getByRole("combobox", { name: "Colourway" }).locator("option")).toHaveCount(before + 1);
  await expect(page.locator("#findings-title .count")).toHaveText("none");
  expect(errors).toEqual([]);
  expect(strangers).toEqual([]);
});

test("a wish that cannot be met is told with what stands in the way and what could be given up", async ({ page }) => {
  await openBench(page);
  await page.getByRole("button", { name: "Make wishes" }).click();
  const form = page.getByRole("dialog", { name: /^Wishes for/ });
  // Oatmeal is nearly the lightest there is; the darkest colour in it stands against everything.
  await form.getByLabel("Yarn that J keeps").selectOption({ label: "keeps Oatmeal" });
  await form.getByRole("button", { name: "Done" }).click();
  await page.getByRole("button", { name: "Find ways" }).click();
  const clash = page.locator(".clash");
  await expect(clash).toBeVisible({ timeout: 60_000 });
  await expect(clash.locator("li").first()).toBeVisible();
  await expect(clash.getByText("What could be given up instead")).toBeVisible();
  await clash
    .getByRole("button", { name: /^Try it/ })
    .first()
    .click();
  await expect(page.getByRole("button", { name: /^Keep/ })).toBeVisible();
  await page.keyboard.press("Escape");
  await expect(told(page)).toHaveText("Dropped; nothing has changed.");
});

test("a search is stopped, and colours are decided step by step", async ({ page }) => {
  await openBench(page);
  await page.getByRole("button", { name: "Find ways" }).click();
  await page.getByRole("button", { name: "Stop" }).click();
  await expect(told(page)).toHaveText(/stopped|found/);
  await tabTo(page, page.getByRole("button", { name: "Decide step by step" }));
  await page.keyboard.press("Enter");
  const steps = page.getByRole("dialog", { name: "Decide step by step" });
  for (let step = 0; step < 8; step++) {
    const take = steps.getByRole("button", { name: /^Take / }).first();
    const end = steps.getByRole("button", { name: "Try it on the fabric" });
    await expect(take.or(end)).toBeVisible({ timeout: 30_000 });
    if (await end.isVisible()) break;
    await tabTo(page, take);
    await page.keyboard.press("Enter");
  }
  await tabTo(page, steps.getByRole("button", { name: "Try it on the fabric" }));
  await page.keyboard.press("Enter");
  await expect(page.getByText("Findings: 0 before, 0 after.")).toBeVisible();
});
