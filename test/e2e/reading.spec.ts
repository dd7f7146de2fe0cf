/** Charts from pages and photographs: read, held against their picture, corrected, put together and begun with, all by keyboard; what is no chart is told. */
import { readFileSync } from "node:fs";
import AxeBuilder from "@axe-core/playwright";
import { expect, test, type Page } from "@playwright/test";
import sharp from "sharp";
import { deltaE2000 } from "../../src/colour/difference.ts";
import { labFromHex } from "../../src/colour/lab.ts";
import type { Project } from "../../src/document/project.ts";
import type { Pixels } from "../../src/raster/pixels.ts";
import { matching } from "../intake/chartWorld/score.ts";
import { paintChart } from "../intake/chartWorld.ts";
import { paintStranger } from "../intake/chartWorld/strangers.ts";
import { fourPages } from "../intake/fourPages.ts";
import { openBench, tabTo, told } from "./journey.ts";

async function openDoor(page: Page): Promise<void> {
  await tabTo(page, page.getByRole("button", { name: "Pattern", exact: true }));
  await page.keyboard.press("Enter");
  const door = page.getByRole("button", { name: "From a picture, a PDF or a drawing" });
  await expect(door).toBeVisible();
  await tabTo(page, door);
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { name: "A chart from a picture, a PDF or a drawing" })).toBeFocused();
}

interface NamedFile {
  readonly name: string;
  readonly mimeType: string;
  readonly buffer: Buffer;
}

/** By the button, as keys do it. */
async function choose(page: Page, files: NamedFile[]): Promise<void> {
  await tabTo(page, page.getByRole("button", { name: "Choose pictures, PDFs or drawings" }));
  const chooser = page.waitForEvent("filechooser");
  await page.keyboard.press("Enter");
  await (await chooser).setFiles(files);
}

const picture = async ({ width, height, rgba }: Pixels): Promise<Buffer> =>
  sharp(Buffer.from(rgba.buffer, rgba.byteOffset, rgba.length), { raw: { width, height, channels: 4 } })
    .removeAlpha()
    .png()
    .toBuffer();

async function saved(page: Page): Promise<Project> {
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save to a project file" }).click();
  return JSON.parse(readFileSync(await (await download).path(), "utf8")) as Project;
}

/** Cells in which two charts differ, whatever letters they use. */
function differences(truth: readonly string[], read: readonly string[]): number {
  const names = matching(truth, read);
  return truth.reduce(
    (sum, row, y) => sum + Array.from(row).filter((id, x) => names.get(read[y]![x]!) !== id).length,
    0,
  );
}

const focused = (page: Page): Promise<string> => page.evaluate(() => document.activeElement?.textContent ?? "");

test("four pages of a PDF become one named, coloured chart with a first colourway in under a minute of acts", async ({
  page,
}) => {
  const truth = await fourPages();
  const { errors, strangers } = await openBench(page);
  const began = Date.now();
  let presses = 0;
  const keyboard = page.keyboard;
  const press = keyboard.press.bind(keyboard);
  keyboard.press = (key, options) => {
    presses++;
    return press(key, options);
  };
  await openDoor(page);
  await choose(page, [{ name: "leaflet.pdf", mimeType: "application/pdf", buffer: Buffer.from(truth.pdf) }]);
  const pages = page.getByRole("listbox", { name: /leaflet\.pdf/ });
  await expect(pages.getByRole("option", { name: "Page 1" })).toBeFocused();
  await expect(pages.locator("img")).toHaveCount(4, { timeout: 20_000 });
  for (let at = 1; at <= 4; at++) {
    await keyboard.press("Space");
    if (at < 4) await keyboard.press("ArrowRight");
  }
  await expect(page.getByRole("button", { name: "Read 4 pages" })).toBeEnabled();
  await keyboard.press("Enter");
  const join = page.getByRole("button", { name: "Put them together" });
  await expect(join).toBeVisible({ timeout: 30_000 });
  await tabTo(page, join);
  await keyboard.press("Enter");
  await expect(told(page)).toHaveText("Put together: 24 stitches, 190 rows.");
  await expect(page.getByRole("textbox", { name: `Name of ${truth.title}` })).toHaveValue(truth.title);
  // A cell pressed by keys on the page's picture is told with what the key calls it.
  const sheet = page.getByRole("application", { name: /^The sheet/ });
  await tabTo(page, sheet);
  await keyboard.press("PageDown");
  await expect(told(page)).not.toHaveText(/in doubt\.$/);
  const goOn = page.getByRole("button", { name: "Take it on" });
  await tabTo(page, goOn, "Shift+Tab");
  await keyboard.press("Enter");
  await expect(page.getByRole("textbox", { name: "Name of the chart" })).toBeFocused();
  for (const name of Object.values(truth.key))
    await expect(page.getByRole("textbox", { name: /^(Name of colour|What the key says)/ }).and(page.locator(`[value="${name}"]`))).toHaveCount(1); // prettier-ignore
  await keyboard.press("Enter");
  await expect(page.getByRole("button", { name: /, rust/ }).first()).toBeVisible({ timeout: 30_000 });
  const seconds = (Date.now() - began) / 1000;
  console.log(`four pages of a PDF to a colourway: ${presses} key presses, ${seconds.toFixed(1)} s`);
  expect(seconds).toBeLessThan(60);

  const project = await saved(page);
  const [chart] = project.pattern.charts;
  expect(chart!.name).toBe(truth.title);
  expect(differences(truth.rows.map((row) => row.replaceAll("-", "·")), chart!.rows)).toBe(0); // prettier-ignore
  expect(project.pattern.colours.map(({ name }) => name).sort()).toEqual(Object.values(truth.key).sort());
  expect(Object.keys(project.colourways[0]!.yarns)).toHaveLength(6);
  // All of it is one step back.
  await keyboard.press("ControlOrMeta+Z");
  await expect(told(page)).toHaveText(`Undone: beginning ${truth.title}.`);
  expect((await saved(page)).name).toBe("Weather station vest");
  expect(errors).toEqual([]);
  expect(strangers).toEqual([]);
});

test("a photographed chart is corrected by keys alone and comes into the pattern", async ({ page }) => {
  const { pixels, truth } = await paintChart("photo: thin lines", 4);
  const [drawn] = truth.charts;
  const { errors } = await openBench(page);
  await openDoor(page);
  await choose(page, [{ name: "by the lamp.png", mimeType: "image/png", buffer: await picture(pixels) }]);
  await expect(told(page)).toHaveText(`1 chart found: ${drawn!.rows[0]!.length} by ${drawn!.rows.length}.`, {
    timeout: 30_000,
  });
  expect((await new AxeBuilder({ page }).include(".reading").analyze()).violations).toEqual([]);

  // Every doubtful cell is looked at, and what was painted is said of it.
  const look = page.getByRole("button", { name: "Look at them one by one" });
  const choices = page.locator(".cell-choice:has(kbd)");
  if (await look.count()) {
    await tabTo(page, look);
    await page.keyboard.press("Enter");
    for (let cell = 0; cell < 60 && (await choices.count()) > 0; cell++) {
      const heading = (await page.locator("#cells-title").textContent())!;
      const [row, column] = heading.match(/\d+/g)!.map(Number) as [number, number];
      const id = drawn!.rows[drawn!.rows.length - row]![drawn!.rows[0]!.length - column]!;
      const wanted = labFromHex(drawn!.palette[id] ?? "#ffffff")!;
      const shades = await choices
        .locator(".colour-mark")
        .evaluateAll((marks) =>
          marks.map((mark) => getComputedStyle(mark).backgroundColor.match(/\d+/g)!.slice(0, 3).map(Number)),
        );
      const away = shades.slice(0, -1).map(([r, g, b]) => {
        const hex = `#${[r, g, b].map((byte) => byte!.toString(16).padStart(2, "0")).join("")}`;
        return deltaE2000(labFromHex(hex)!, wanted);
      });
      await page.keyboard.press(String(1 + away.indexOf(Math.min(...away))));
      await expect(page.locator("#cells-title")).not.toHaveText(heading);
    }
    await expect(page.getByRole("button", { name: "On to the colours" })).toBeFocused();
  }
  await expect(page.getByText(/No cell is in doubt/)).toBeVisible();

  // A cell is chosen on the picture by arrow keys, made wrong together with all that look like it, and taken back.
  const sheet = page.getByRole("application", { name: /^The sheet/ });
  await tabTo(page, sheet, "Shift+Tab");
  const frame = (await sheet.boundingBox())!;
  await page.mouse.click(frame.x + frame.width / 2, frame.y + frame.height / 2);
  await expect(told(page)).toHaveText(/^row \d+, stitch \d+: /);
  const before = (await told(page).textContent())!;
  await sheet.focus();
  await page.keyboard.press(before.startsWith("row 1,") ? "ArrowUp" : "ArrowDown");
  await expect(told(page)).not.toHaveText(before);
  await page.keyboard.press("Enter");
  await expect(page.locator(".cell-choice[aria-pressed=true]")).toBeFocused();
  await page.keyboard.press("ArrowDown");
  const other = (await focused(page)).replace(/^\d/, "");
  await page.keyboard.press("Shift+Enter");
  await expect(told(page)).toHaveText(new RegExp(`^\\d+ cells made ${other}\\.`));
  await page.keyboard.press("ControlOrMeta+Z");
  await expect(told(page)).toHaveText(/^Undone: \d+ cells made /);

  // The grid: a row more at the bottom and taken back; a corner moved by keys, and back as it was.
  await tabTo(page, page.locator(".check-parts [data-part=grid]"));
  await page.keyboard.press("Enter");
  await tabTo(page, page.getByRole("button", { name: "One row more at the bottom" }));
  await page.keyboard.press("Enter");
  await expect(told(page)).toHaveText(/^one row more at the bottom: \d+ stitches, \d+ rows\.$/, { timeout: 20_000 });
  await page.keyboard.press("ControlOrMeta+Z");
  await expect(told(page)).toHaveText("Undone: one row more at the bottom.");
  const corner = page.getByRole("spinbutton", { name: "top left corner, from the left" });
  const was = await corner.inputValue();
  const handle = page.getByRole("button", { name: /^top left corner: / });
  await tabTo(page, handle, "Shift+Tab");
  await page.keyboard.press("Shift+ArrowLeft");
  await expect(corner).not.toHaveValue(was);
  expect((await new AxeBuilder({ page }).include(".reading").analyze()).violations).toEqual([]);
  await tabTo(page, page.getByRole("button", { name: "Back as it was" }));
  await page.keyboard.press("Enter");
  await expect(corner).toHaveValue(was);

  // Colours: called something, and what was said is taken back; then the chart comes into this pattern.
  await tabTo(page, page.locator(".check-parts [data-part=colours]"), "Shift+Tab");
  await page.keyboard.press("Enter");
  const name = page.getByRole("textbox", { name: /^Name of colour/ }).first();
  await tabTo(page, name);
  await page.keyboard.type("lamplight");
  await page.keyboard.press("Enter");
  await expect(told(page)).toHaveText(/ is called lamplight\.$/);
  await tabTo(page, page.getByRole("button", { name: "Take it on" }), "Shift+Tab");
  await page.keyboard.press("Enter");
  await expect(page.getByRole("textbox", { name: "Name of the chart" })).toBeFocused();
  await page.keyboard.type("Lamp chart");
  expect((await new AxeBuilder({ page }).include(".reading").analyze()).violations).toEqual([]);
  await tabTo(page, page.getByRole("radio", { name: "into a new project" }));
  await page.keyboard.press("ArrowRight");
  await tabTo(page, page.getByRole("button", { name: "Add to this pattern" }));
  await page.keyboard.press("Enter");
  await expect(told(page)).toHaveText("the chart Lamp chart added.");
  const project = await saved(page);
  const chart = project.pattern.charts.at(-1)!;
  expect(chart.name).toBe("Lamp chart");
  expect(project.pattern.colours.some(({ name: called }) => called === "lamplight")).toBe(true);
  // 99.5 % of cells of a photograph is what the reader promises before anything is corrected.
  const cells = drawn!.rows.length * drawn!.rows[0]!.length;
  expect(differences(drawn!.rows, chart.rows)).toBeLessThanOrEqual(0.005 * cells);
  expect(errors).toEqual([]);
});

test("what is no chart is told, and read all the same by a grid laid by keys; a broken PDF is told", async ({
  page,
}) => {
  const { errors } = await openBench(page);
  await openDoor(page);
  const { pdf } = await fourPages();
  const noise = await picture(await paintStranger("noise", 1));
  await choose(page, [
    { name: "broken.pdf", mimeType: "application/pdf", buffer: Buffer.from(pdf.slice(0, pdf.length >> 1)) },
    { name: "noise.png", mimeType: "image/png", buffer: noise },
    { name: "empty.png", mimeType: "image/png", buffer: Buffer.alloc(0) },
  ]);
  const none = page.getByRole("alert").filter({ hasText: "No chart was found in noise.png" });
  await expect(none).toBeVisible({ timeout: 30_000 });
  await expect(none).toContainText(/expected .+, found .+\./);
  for (const name of ["broken.pdf", "empty.png"])
    await expect(page.getByRole("alert").filter({ hasText: `${name} was not opened` })).toContainText(/found .+\./);
  expect((await new AxeBuilder({ page }).include(".reading").analyze()).violations).toEqual([]);

  await tabTo(page, page.getByRole("button", { name: "Lay the grid by hand" }));
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { name: "The grid by your hand" })).toBeFocused();
  const across = page.getByRole("textbox", { name: "Stitches across" });
  await tabTo(page, across);
  await page.keyboard.press("ControlOrMeta+A");
  await page.keyboard.type("8");
  await tabTo(page, page.getByRole("textbox", { name: "Rows" }));
  await page.keyboard.press("ControlOrMeta+A");
  await page.keyboard.type("1");
  await expect(page.getByText(/whole numbers from 2/)).toBeVisible();
  await page.keyboard.type("0");
  await tabTo(page, page.getByRole("button", { name: "Exactly as it lies" }));
  await page.keyboard.press("Enter");
  await expect(told(page)).toHaveText("A chart read by your grid: 8 stitches, 10 rows.", { timeout: 20_000 });
  await expect(page.getByRole("list", { name: "Charts found" }).getByRole("button")).toHaveCount(1);
  // Nothing is lost by a look at the bench.
  await page.getByRole("button", { name: "Bench", exact: true }).click();
  await page.getByRole("button", { name: "Pattern", exact: true }).click();
  await page.getByRole("button", { name: "From a picture, a PDF or a drawing" }).click();
  await expect(page.getByRole("list", { name: "Charts found" }).getByRole("button")).toHaveCount(1);
  expect(errors).toEqual([]);
});
