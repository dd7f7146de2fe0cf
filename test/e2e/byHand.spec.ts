/** A yarn carried along the ladder, by keys and by hand: each place tells what would happen there; two yarns swap places. */
import AxeBuilder from "@axe-core/playwright";
import { expect, test, type Page } from "@playwright/test";
import { chooseColourway, openBench, tabTo, told } from "./journey.ts";

const rung = (page: Page, letter: string) => page.locator(`.rung:has-text("${letter}")`);
const words = (page: Page, letter: string) => page.locator(`#place-${letter}`);

test("by keyboard: a yarn is taken up, every place is read out, it is laid down and undone; two swap places", async ({
  page,
}) => {
  const { errors } = await openBench(page);
  await chooseColourway(page, "second try");
  await expect(rung(page, "A")).toHaveAccessibleName(/Knitted in Oatmeal/);
  const takeUp = page.getByRole("button", { name: "Carry a yarn along" });
  await tabTo(page, takeUp);
  await page.keyboard.press("Enter");
  const hand = page.getByRole("application", { name: /^Oatmeal in your hand/ });
  await expect(hand).toBeFocused();
  await expect(words(page, "A")).toContainText("has it now");
  await page.keyboard.press("Shift+K");
  // Oatmeal in rowan's place: light where the pattern is middling dark.
  await expect(told(page)).toHaveText(/^Oatmeal for K, rowan: .*changes places with .*Worse than now, Ember\.$/);
  await expect(words(page, "K")).toHaveAttribute("data-verdict", "worse");
  await expect(page.locator('.would-link.heavy[data-would="K"]')).toBeAttached();
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
  await page.keyboard.press("ArrowUp");
  await expect(told(page)).toHaveText(/^Oatmeal for E, /);
  await page.keyboard.press("Escape");
  await expect(told(page)).toHaveText("Oatmeal is put back.");
  await expect(takeUp).toBeFocused();

  await page.keyboard.press("Enter");
  await page.keyboard.press("End");
  await expect(told(page)).toHaveText(/^Oatmeal for J, /);
  await page.keyboard.press("Enter");
  await expect(rung(page, "J")).toHaveAccessibleName(/Knitted in Oatmeal/);
  await expect(told(page)).toHaveText("Oatmeal for J.");
  await page.keyboard.press("Control+z");
  await expect(rung(page, "J")).not.toHaveAccessibleName(/Oatmeal/);

  await tabTo(page, rung(page, "K"), "Shift+Tab");
  await page.keyboard.press("Enter");
  await tabTo(page, page.getByRole("button", { name: "Swap with…" }), "Shift+Tab");
  await page.keyboard.press("Enter");
  const swaps = page.getByRole("listbox", { name: "Swaps for K" });
  await expect(swaps.getByRole("option").filter({ hasText: "Oatmeal" })).toContainText("changes places: A with");
  await page.keyboard.press("Enter");
  await expect(told(page)).toHaveText("Ember and Oatmeal swapped.");
  await expect(rung(page, "A")).toHaveAccessibleName(/Knitted in Ember/);
  await expect(rung(page, "K")).toHaveAccessibleName(/Knitted in Oatmeal/);
  await page.keyboard.press("Control+z");
  await expect(rung(page, "A")).toHaveAccessibleName(/Knitted in Oatmeal/);
  await expect(rung(page, "K")).toHaveAccessibleName(/Knitted in Ember/);
  await expect(page.getByRole("button", { name: "Undo", exact: true })).toBeDisabled();
  expect(errors).toEqual([]);
});

test("by hand on a phone: words stand beside every place, within the part; a yarn let go upon another swaps with it", async ({
  page,
}) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await openBench(page);
  await page.locator(".panel-switch button[data-panel=ladder]").click();
  const middle = async (selector: string) => {
    const box = (await page.locator(selector).boundingBox())!;
    return [box.x + 12, box.y + box.height / 2] as const;
  };
  const ember = await middle('.held:has-text("Ember")');
  await page.mouse.move(...ember);
  await page.mouse.down();
  const [x, y] = await middle('.rung:has-text("J")');
  await page.mouse.move(x + 60, y, { steps: 5 });
  await expect(words(page, "J")).toHaveAttribute("data-at", "true");
  await expect(page.locator(".hand-told")).toHaveText(/^Ember for J, /);
  await expect(page.locator(".place-words")).toHaveCount(11);
  const cut = await page
    .locator(".place-words")
    .evaluateAll((all) => all.filter((one) => one.scrollWidth > one.clientWidth).map((one) => one.textContent));
  expect(cut).toEqual([]);
  await page.mouse.move(...(await middle('.held:has-text("Oatmeal")')), { steps: 5 });
  await expect(page.locator(".hand-told")).toHaveText(/^Ember and Oatmeal swapped: .*changes places: A with /);
  await page.mouse.up();
  await expect(rung(page, "A")).toHaveAccessibleName(/Knitted in Ember/);
  await expect(rung(page, "K")).toHaveAccessibleName(/Knitted in Oatmeal/);
  await page.getByRole("button", { name: /^Undo/ }).click();
  await expect(rung(page, "A")).toHaveAccessibleName(/Knitted in Oatmeal/);

  // Without dragging: a press takes it up, another lays it down.
  await page.locator('.held:has-text("Ember")').click();
  await expect(page.getByRole("application")).toBeFocused();
  await rung(page, "J").click();
  await expect(rung(page, "J")).toHaveAccessibleName(/Knitted in Ember/);
});
