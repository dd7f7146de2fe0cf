/** Yarns without a photograph: typed and likened, compared with the ball beside the screen; and a colourway off a picture of the garment. */
import AxeBuilder from "@axe-core/playwright";
import { expect, test, type Page } from "@playwright/test";
import { openBench, ready, tabTo, told } from "./journey.ts";

async function openYarns(page: Page): Promise<void> {
  await tabTo(page, page.getByRole("button", { name: "Yarns", exact: true }));
  await page.keyboard.press("Enter");
}

async function type(page: Page, field: string, text: string): Promise<void> {
  await tabTo(page, page.getByRole("textbox", { name: field, exact: true }));
  await page.keyboard.press("Control+a");
  await page.keyboard.type(text);
}

/** From the way that is chosen to another, by arrow keys. */
async function chooseWay(page: Page, from: string, to: string): Promise<void> {
  await tabTo(page, page.getByRole("radio", { name: from, exact: true }));
  for (let presses = 0; presses < 5 && !(await page.getByRole("radio", { name: to }).isChecked()); presses++)
    await page.keyboard.press("ArrowRight");
  await expect(page.getByRole("radio", { name: to })).toBeChecked();
}

test("by keyboard: what is typed wrong is told, a yarn like one of hers but lighter goes onto the shelf, and back", async ({
  page,
}) => {
  const { errors } = await openBench(page);
  await openYarns(page);
  await tabTo(page, page.getByRole("button", { name: "By hand" }));
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { name: "A yarn by hand" })).toBeFocused();

  await chooseWay(page, "picked here", "typed");
  await type(page, "Hex, Lab or LCh", "54 12 259");
  await page.keyboard.press("Enter");
  await expect(page.getByText("The b*: expected a number from -160 to 160, found 259.")).toBeVisible();
  await type(page, "Hex, Lab or LCh", "54,5 12 20");
  await expect(page.locator(".shade-numbers")).toContainText("Lab 55 12 20");
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);

  await tabTo(page, page.getByRole("radio", { name: "typed" }), "Shift+Tab");
  await page.keyboard.press("ArrowLeft");
  await page.keyboard.press("ArrowLeft");
  await expect(page.getByRole("radio", { name: "like another" })).toBeChecked();
  const like = page.getByRole("combobox", { name: "Like" });
  await tabTo(page, like);
  for (let presses = 0; presses < 60; presses++) {
    if ((await like.locator("option:checked").textContent()) === "Charcoal") break;
    await page.keyboard.press("ArrowDown");
  }
  // Charcoal has Lab 27 0 −2; two small steps of 3 L*.
  await expect(page.locator(".shade-numbers")).toContainText("Lab 27 0 -2");
  await tabTo(page, page.getByRole("button", { name: "lighter" }));
  await page.keyboard.press("Enter");
  await page.keyboard.press("Enter");
  await expect(page.locator(".shade-numbers")).toContainText("Lab 33 0 -2");
  await expect(page.getByText(/^Charcoal, but lighter 2 times: \d\.\d ΔE00 from it\.$/)).toBeVisible();

  await tabTo(page, page.getByRole("button", { name: "Put it on the shelf" }));
  await page.keyboard.press("Enter");
  await expect(page.getByText("The name: expected what you call this yarn, found nothing.")).toBeVisible();
  await expect(page.getByRole("textbox", { name: "Name", exact: true })).toBeFocused();
  await page.keyboard.type("Soot");
  await type(page, "Length", "105 m in 25 g");
  await expect(page.getByText("420 m in 100 g")).toBeVisible();
  await type(page, "Grams", "1,5 oz");
  await page.keyboard.press("Enter");
  await expect(told(page)).toHaveText("Soot put on the shelf.");
  await tabTo(page, page.getByRole("searchbox", { name: "Search your yarns" }));
  await page.keyboard.type("soot");
  await expect(page.getByText("1 of 42 yarns")).toBeVisible();
  await tabTo(page, page.locator(".stash-view > [tabindex='0']"));
  await expect(page.locator(".stash-view [role=option]")).toHaveAccessibleName(/^Soot, .*dark, L\* 33, 43.g/);
  await page.keyboard.press("Control+z");
  await expect(page.getByText("0 of 41 yarns")).toBeVisible();
  expect(errors).toEqual([]);
});

/** Whom the choices are made for: a ball of this colour, seen without error on a screen without error. */
const BALL = [60, 110, 143];

async function nearer(page: Page): Promise<"ArrowLeft" | "ArrowRight"> {
  const [left, right] = await page.locator(".compare-patches .compare-patch").evaluateAll((patches, ball) => {
    return patches.map((patch) => {
      const bytes = getComputedStyle(patch).backgroundColor.match(/\d+/g)!.map(Number);
      return Math.hypot(...bytes.map((byte, at) => byte - ball[at]!));
    });
  }, BALL);
  return left! < right! ? "ArrowLeft" : "ArrowRight";
}

test("by keys alone the comparison goes to its end, a choice is taken back, and the yarn on the bench gets its shade", async ({
  page,
}) => {
  const { errors } = await openBench(page);
  await openYarns(page);
  await tabTo(page, page.getByRole("searchbox", { name: "Search your yarns" }));
  await page.keyboard.type("storm");
  await tabTo(page, page.locator(".stash-view > [tabindex='0']"));
  await tabTo(page, page.locator("[data-again]"));
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { name: "Storm" })).toBeFocused();
  await chooseWay(page, "picked here", "beside the ball");
  await tabTo(page, page.getByRole("button", { name: "Begin at the shade above" }));
  await page.keyboard.press("Enter");
  const question = page.getByRole("heading", { name: "Which is nearer to your ball?" });
  await expect(question).toBeFocused();
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
  await page.keyboard.press("ArrowDown");
  await expect(page.getByText("Choice 2 of at most 18")).toBeVisible();
  await page.keyboard.press("Backspace");
  await expect(page.getByText("Choice 1 of at most 18")).toBeVisible();
  let choices = 0;
  for (; await question.isVisible(); choices++) await page.keyboard.press(await nearer(page));
  expect(choices).toBeGreaterThanOrEqual(12);
  expect(choices).toBeLessThanOrEqual(18);
  await expect(page.getByText(/give or take \d\.\d ΔE00: \d\.\d by your \d+ answers/)).toBeVisible();
  await tabTo(page, page.getByRole("button", { name: "Take this shade" }));
  await page.keyboard.press("Enter");
  const hex = /#[0-9a-f]{6}/.exec((await page.locator(".shade-numbers").textContent())!)![0];
  const bytes = [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));
  // Bytes of sRGB: within a small difference of each.
  expect(Math.hypot(...bytes.map((byte, at) => byte - BALL[at]!))).toBeLessThan(25);
  await tabTo(page, page.getByRole("button", { name: "Keep the changes" }));
  await page.keyboard.press("Enter");
  await expect(told(page)).toHaveText("Storm changed, on the bench too.");
  await expect(page.getByText(/compared on the screen/i)).toBeVisible();
  await page.keyboard.press("Control+z");
  await expect(page.getByText(/compared on the screen/i)).toHaveCount(0);
  expect(errors).toEqual([]);
});

test("a colourway off a picture by keys: kept beside the others, told as no yarn, and taken back", async ({ page }) => {
  const { errors } = await openBench(page);
  // A picture of two colours, one above the other, drawn here.
  const png = await page.evaluate(() => {
    const canvas = document.createElement("canvas");
    canvas.width = canvas.height = 400;
    const context = canvas.getContext("2d")!;
    context.fillStyle = "#b8862f";
    context.fillRect(0, 0, 400, 200);
    context.fillStyle = "#27456b";
    context.fillRect(0, 200, 400, 200);
    return canvas.toDataURL("image/png").split(",")[1]!;
  });
  await tabTo(page, page.getByLabel("More for this colourway"));
  await page.keyboard.press("Enter");
  await tabTo(page, page.getByRole("button", { name: "Colours from a picture…" }));
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { name: "Colours from a picture" })).toBeVisible();
  await page
    .getByLabel("Picture of the garment")
    .setInputFiles({ name: "cardigan.png", mimeType: "image/png", buffer: Buffer.from(png, "base64") });
  const plane = page.getByRole("application", { name: "The picture: arrow keys move the cross, Enter picks A" });
  await expect(plane).toBeFocused();
  for (let steps = 0; steps < 8; steps++) await page.keyboard.press("Shift+ArrowUp");
  await page.keyboard.press("Enter");
  await page.keyboard.press("Shift+ArrowLeft");
  await page.keyboard.press("Enter");
  await page.keyboard.press("B");
  for (let steps = 0; steps < 16; steps++) await page.keyboard.press("Shift+ArrowDown");
  await page.keyboard.press("Enter");
  const row = (letter: string) =>
    page.locator(".garment-colour").filter({ hasText: letter === "A" ? "hoar" : "cloud" });
  await expect(row("A").locator(".garment-found")).toHaveText(/(yellow|orange|brown).*, ±\d+$/);
  await expect(row("A").locator(".garment-pick")).toHaveCount(2);
  await expect(row("B").locator(".garment-found")).toHaveText(/blue, ±\d+$/);
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
  await type(page, "Name of the colourway", "the cardigan");
  await tabTo(page, page.getByRole("button", { name: "Keep as a colourway to compare with" }));
  await page.keyboard.press("Enter");
  await ready(page);
  await expect(page.getByRole("combobox", { name: "Colourway" }).locator("option:checked")).toHaveText("the cardigan");
  await expect(page.locator('.rung:has-text("A")')).toHaveAccessibleName(/Knitted in A, from a picture/);
  await expect(page.getByText(/A, from a picture".*expected a yarn to knit with/)).toBeAttached();
  await page.keyboard.press("Control+z");
  await expect(page.getByRole("combobox", { name: "Colourway" }).locator("option")).not.toContainText(["the cardigan"]);
  expect(errors).toEqual([]);
});
