/** Wishes made, met and taken back: the search does what she asked, by keyboard. */
import AxeBuilder from "@axe-core/playwright";
import { expect, test } from "@playwright/test";
import { openBench, tabTo, told } from "./journey.ts";

test("a yarn kept out and a colour in blue are wished, met, kept and undone one by one", async ({ page }) => {
  const { errors } = await openBench(page);
  await tabTo(page, page.getByRole("button", { name: "Make wishes" }));
  await page.keyboard.press("Enter");
  const form = page.getByRole("dialog", { name: /^Wishes for/ });
  await tabTo(page, form.getByLabel("How G should look"));
  await page.keyboard.type("in blue");
  await expect(told(page)).toHaveText("G in blue.");
  await tabTo(page, form.getByLabel("Find a yarn"));
  await page.keyboard.type("storm");
  await tabTo(page, form.getByLabel("What Storm may be used for"));
  await page.keyboard.type("not");
  await expect(told(page)).toHaveText("Storm: not this one.");
  expect((await new AxeBuilder({ page }).include(".wish-form").analyze()).violations).toEqual([]);
  await page.keyboard.press("Escape");
  await expect(form).toBeHidden();

  const wishes = page.getByRole("list", { name: "Your wishes" });
  await expect(wishes.getByRole("listitem")).toHaveText(["G in blue", "Not Storm"]);
  await tabTo(page, page.getByRole("button", { name: "Find ways" }));
  await page.keyboard.press("Enter");
  const ways = page.locator(".way");
  await expect(page.getByRole("button", { name: "Find ways again" })).toBeVisible({ timeout: 60_000 });
  expect(await ways.count()).toBeGreaterThan(0);
  const first = ways.first().getByRole("button", { name: /^Try it/ });
  await tabTo(page, first);
  await page.keyboard.press("Enter");
  await tabTo(page, page.getByRole("button", { name: /^Keep/ }));
  await page.keyboard.press("Enter");
  await expect(told(page)).toHaveText(/^Kept: A new colourway/);
  // The ladder of what was kept: no Storm anywhere.
  await expect(page.locator(".held-name", { hasText: "Storm" })).toHaveCount(0);

  await page.keyboard.press("ControlOrMeta+Z");
  await page.keyboard.press("ControlOrMeta+Z");
  await expect(told(page)).toHaveText("Undone: Storm: not this one.");
  await expect(wishes.getByRole("listitem")).toHaveText(["G in blue"]);
  await tabTo(page, page.getByRole("button", { name: "Take back: G in blue" }));
  await page.keyboard.press("Enter");
  await expect(page.getByText("None yet: all your yarns")).toBeVisible();
  expect(errors).toEqual([]);
});
