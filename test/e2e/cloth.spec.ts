/** Her own cloth: numbers typed, and a photograph of a plain swatch measured, all by keyboard. */
import AxeBuilder from "@axe-core/playwright";
import { expect, test } from "@playwright/test";
import sharp from "sharp";
import { encodeSrgb } from "../../src/colour/srgb.ts";
import { openBench, tabTo, told } from "./journey.ts";

/** 20 × 20 stitches of 12 pixels with a wave of root mean square 0.2 across, on a table; a ball of 5/4 of its light beside it. */
async function photo(): Promise<Buffer> {
  const [width, height] = [400, 300];
  const pixels = new Uint8Array(width * height * 3);
  for (let at = 0; at < width * height; at++) {
    const [x, y] = [at % width, Math.floor(at / width)];
    const cloth = 0.32 * (1 + 0.2 * Math.SQRT2 * Math.sin((2 * Math.PI * (x + 0.5)) / 12));
    const light = x < 300 ? cloth : y < 150 ? 0.4 : 0.1;
    pixels.fill(Math.round(255 * encodeSrgb(light)), at * 3, at * 3 + 3);
  }
  return sharp(pixels, { raw: { width, height, channels: 3 } })
    .png()
    .toBuffer();
}

test("a photograph of a plain swatch replaces the usual texture, and undo brings it back", async ({ page }) => {
  const { errors, strangers } = await openBench(page);
  const opener = page.getByRole("button", { name: "Your cloth" });
  await tabTo(page, opener);
  await page.keyboard.press("Enter");
  const dialog = page.getByRole("dialog", { name: "Your cloth" });
  await expect(dialog.getByLabel("Contrast of the stitch")).toHaveValue("0.12");

  await dialog
    .locator("input[type=file]")
    .setInputFiles({ name: "swatch.png", mimeType: "image/png", buffer: await photo() });
  const type = async (label: string, value: string) => {
    const field = dialog.getByLabel(label, { exact: true });
    await tabTo(page, field);
    await page.keyboard.press("ControlOrMeta+A");
    await page.keyboard.type(value);
  };
  await expect(dialog.getByRole("img")).toBeVisible();
  await type("from the left", "24");
  await type("from the top", "30");
  await type("wide", "240");
  await type("high", "240");
  await type("Stitches across the frame", "20");
  await type("Rows up the frame", "20");
  expect((await new AxeBuilder({ page }).include(".cloth-dialog").analyze()).violations).toEqual([]);
  await tabTo(page, dialog.getByRole("button", { name: "Measure" }));
  await page.keyboard.press("Enter");
  await expect(dialog.getByText(/Contrast of the stitch 0\.(19|20|21)/)).toBeVisible();
  await tabTo(page, dialog.getByRole("button", { name: "Go by these numbers" }));
  await page.keyboard.press("Enter");
  await expect(dialog.getByLabel("Contrast of the stitch")).toHaveValue(/^0\.(19|20|21)/);
  await page.keyboard.press("Escape");
  await expect(dialog).toBeHidden();
  await expect(told(page)).toHaveText("taking the swatch’s numbers.");
  await page.keyboard.press("ControlOrMeta+Z");
  await expect(told(page)).toHaveText("Undone: taking the swatch’s numbers.");
  expect(errors).toEqual([]);
  expect(strangers).toEqual([]);
});

test("too few stitches, a file that is no picture and a number out of range are told", async ({ page }) => {
  await openBench(page);
  await page.getByRole("button", { name: "Your cloth" }).click();
  const dialog = page.getByRole("dialog", { name: "Your cloth" });
  const file = dialog.locator("input[type=file]");
  await file.setInputFiles({ name: "notes.txt", mimeType: "text/plain", buffer: Buffer.from("knit one") });
  await expect(dialog.getByText("notes.txt cannot be opened as a picture here.")).toBeVisible();
  await file.setInputFiles({ name: "swatch.png", mimeType: "image/png", buffer: await photo() });
  await dialog.getByLabel("Stitches across the frame").fill("6");
  await dialog.getByLabel("Rows up the frame").fill("6");
  await dialog.getByRole("button", { name: "Measure" }).click();
  await expect(dialog.getByText("expected at least 16 stitches each way")).toBeVisible();
  const factor = dialog.getByLabel("Cloth’s light over the yarn’s");
  await factor.fill("7");
  await expect(dialog.getByText("a number between 0.2 and 1.5")).toBeVisible();
  await factor.fill("0.9");
  await factor.press("Enter");
  await expect(told(page)).toHaveText("setting cloth’s light over the yarn’s.");
});
