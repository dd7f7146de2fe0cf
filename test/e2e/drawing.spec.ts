/** Drawing a chart: by the pointer, by keys alone and by fingers; every act undone in one step. */
import { readFileSync } from "node:fs";
import AxeBuilder from "@axe-core/playwright";
import { expect, test, type Locator, type Page } from "@playwright/test";
import { deskGeometry, firstStitch } from "../../src/app/drawing/deskGeometry.ts";
import { leftOf, topOf } from "../../src/app/pattern/laidChart.ts";
import { openBench, tabTo, told } from "./journey.ts";

const desk = (page: Page): Locator => page.getByRole("application");
/** What is read aloud of the chart itself. */
const read = (page: Page): Locator => page.locator("[data-told]");

/** A new chart of 12 stitches and 8 rows in hoar (A), which is all that is on the desk. */
async function emptyChart(page: Page): Promise<void> {
  await openBench(page);
  await tabTo(page, page.getByRole("button", { name: "Pattern", exact: true }));
  await page.keyboard.press("Enter");
  await tabTo(page, page.getByRole("button", { name: "A new, empty chart" }));
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { name: "A new, empty chart" })).toBeFocused();
  await page.keyboard.press("Tab");
  await page.keyboard.press("Tab");
  await page.keyboard.type("cuff");
  for (const [field, words] of [
    ["Stitches", "12"],
    ["Rows", "8"],
  ] as const) {
    await page.keyboard.press("Tab");
    await expect(page.getByRole("textbox", { name: field })).toBeFocused();
    await page.keyboard.press("Control+a");
    await page.keyboard.type(words);
  }
  await page.keyboard.press("Enter");
  await expect(desk(page)).toHaveAccessibleName("cuff: 8 rows of 12 stitches");
}

/** The rows of the last chart as they are kept in her file, top row first. */
async function rows(page: Page): Promise<string[]> {
  const [file] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Save to a project file" }).click(),
  ]);
  const { pattern } = JSON.parse(readFileSync(await file.path(), "utf8")) as {
    pattern: { charts: { rows: string[] }[] };
  };
  return pattern.charts.at(-1)!.rows;
}

/** The middle of a stitch on the page. The example's gauge is 28 stitches to 30 rows. */
async function pointOf(page: Page, row: number, column: number): Promise<{ x: number; y: number }> {
  const { left, top, ...view } = await desk(page).evaluate((element) => {
    const box = element.getBoundingClientRect();
    const { clientWidth: width, clientHeight: height, scrollLeft, scrollTop } = element;
    return { width, height, left: box.left - scrollLeft, top: box.top - scrollTop };
  });
  const size = { columns: 12, rows: 8, aspect: 28 / 30, view };
  const geometry = deskGeometry(size, firstStitch(size));
  return {
    x: left + leftOf(geometry, column) + geometry.stitch / 2,
    y: top + topOf(geometry, row) + geometry.row / 2,
  };
}

async function drag(page: Page, ...stitches: (readonly [number, number])[]): Promise<void> {
  for (const [at, [row, column]] of stitches.entries()) {
    const { x, y } = await pointOf(page, row, column);
    await page.mouse.move(x, y, { steps: at === 0 ? 1 : 5 });
    if (at === 0) await page.mouse.down();
  }
  await page.mouse.up();
}

const GROUND = "A".repeat(12);
const empty = (count: number): string[] => Array.from({ length: count }, () => GROUND);

test("by the pointer: strokes, lines, rectangles, filling, choosing and moving, each undone in one step", async ({
  page,
}) => {
  await emptyChart(page);
  const tool = (name: string) => page.getByRole("radio", { name, exact: true }).check();
  const colour = (name: string) => page.getByRole("radio", { name }).check();
  await colour("K rowan");
  await drag(page, [1, 1], [1, 4], [3, 4]);
  await expect(told(page)).toHaveText("6 stitches drawn in rowan.");
  const stroke = [...empty(5), "AAAAAAAAKAAA", "AAAAAAAAKAAA", "AAAAAAAAKKKK"];
  expect(await rows(page)).toEqual(stroke);

  await tool("Line");
  await drag(page, [8, 12], [8, 9]);
  expect((await rows(page))[0]).toBe("KKKKAAAAAAAA");
  await page.keyboard.press("Control+z");
  expect(await rows(page)).toEqual(stroke);

  await tool("Rectangle");
  await page.getByRole("switch", { name: "Filled" }).uncheck();
  await colour("J night");
  await drag(page, [5, 12], [8, 8]);
  const framed = ["JJJJJAAAAAAA", "JAAAJAAAAAAA", "JAAAJAAAAAAA", "JJJJJAAAAAAA", GROUND, ...stroke.slice(5)];
  expect(await rows(page)).toEqual(framed);

  await tool("Fill");
  await colour("C mist");
  const inside = await pointOf(page, 6, 10);
  await page.mouse.click(inside.x, inside.y);
  const filled = ["JJJJJAAAAAAA", "JCCCJAAAAAAA", "JCCCJAAAAAAA", ...framed.slice(3)];
  expect(await rows(page)).toEqual(filled);

  await tool("Choose");
  await drag(page, [8, 12], [5, 8]);
  await expect(read(page)).toHaveText("Chosen: 5 stitches × 4 rows, rows 5–8, stitches 8–12.");
  await drag(page, [6, 10], [6, 8]);
  await expect(told(page)).toHaveText("5 stitches × 4 rows moved.");
  expect((await rows(page))[1]).toBe("AAJCCCJAAAAA");
  await page.getByRole("button", { name: "Mirror upside down" }).click();
  await page.getByRole("button", { name: "None", exact: true }).click();

  // By hand: three acts back are the mirror, the move and the filling; the choice of stitches is no act.
  for (let acts = 0; acts < 2; acts++) await page.keyboard.press("Control+z");
  expect(await rows(page)).toEqual(framed);

  // By hand: 12 stitches mirror about the line between 6 and 7; every 5 stitches 2 comes again at 7 and 12.
  await tool("Pencil");
  await colour("G gentian");
  await page.getByRole("switch", { name: "Mirrored about the middle of the chart" }).check();
  const alone = await pointOf(page, 4, 2);
  await page.mouse.click(alone.x, alone.y);
  await expect.poll(async () => (await rows(page))[4]).toBe("AGAAAAAAAAGA");
  await page.keyboard.press("Control+z");
  await page.getByRole("switch", { name: "Mirrored about the middle of the chart" }).uncheck();
  await page.getByRole("switch", { name: "In every repeat of its band" }).check();
  await page.getByRole("spinbutton", { name: "or every" }).fill("5");
  await page.mouse.click(alone.x, alone.y);
  await expect.poll(async () => (await rows(page))[4]).toBe("GAAAAGAAAAGA");
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
});

test("by keys alone: drawing, choosing, copying as text, turning, by numbers, rows that come in, a new colour", async ({
  page,
  context,
}) => {
  await context.grantPermissions(["clipboard-read", "clipboard-write"]);
  await emptyChart(page);
  await tabTo(page, desk(page));
  await page.keyboard.press("k");
  await page.keyboard.press("K");
  await expect(read(page)).toHaveText("rowan is taken up.");
  await page.keyboard.press("ArrowUp");
  await page.keyboard.press("ArrowLeft");
  await expect(read(page)).toHaveText("Row 2, stitch 2, hoar");
  await page.keyboard.press("Enter");
  await expect(told(page)).toHaveText("1 stitch drawn in rowan.");
  // The pen stays down while Space is held, and all of it is one step.
  await page.keyboard.press("ArrowLeft");
  await page.keyboard.down("Space");
  await page.keyboard.press("ArrowLeft");
  await page.keyboard.press("ArrowUp");
  await page.keyboard.up("Space");
  const drawn = [...empty(5), "AAAAAAAAKAAA", "AAAAAAAAKKKA", GROUND];
  expect(await rows(page)).toEqual(drawn);
  await tabTo(page, desk(page), "Shift+Tab");
  await page.keyboard.press("Control+z");
  expect(await rows(page)).toEqual([...empty(6), "AAAAAAAAAAKA", GROUND]);
  await page.keyboard.press("Control+Shift+z");

  await tabTo(page, desk(page));
  await page.keyboard.press("Control+End");
  await page.keyboard.press("ArrowUp");
  await page.keyboard.press("ArrowLeft");
  await page.keyboard.press("Shift+ArrowLeft");
  await page.keyboard.press("Shift+ArrowLeft");
  await page.keyboard.press("Shift+ArrowUp");
  await expect(read(page)).toHaveText("Row 3, stitch 4, rowan; chosen: 3 stitches × 2 rows");
  await page.keyboard.press("Control+c");
  expect(await page.evaluate(() => navigator.clipboard.readText())).toBe("KAA\nKKK\n");
  await page.keyboard.press("Control+v");
  await expect(read(page)).toContainText("3 stitches × 2 rows in the hand");
  for (let rows = 0; rows < 4; rows++) await page.keyboard.press("ArrowUp");
  await page.keyboard.press("Enter");
  const pasted = [GROUND, "AAAAAAAAKAAA", "AAAAAAAAKKKA", ...empty(2), ...drawn.slice(5)];
  expect(await rows(page)).toEqual(pasted);

  // A quarter turn of what is not square is held turned, until it is laid down.
  await tabTo(page, page.getByRole("button", { name: "Turn right" }));
  await page.keyboard.press("Enter");
  await expect(read(page)).toContainText("makes 3 stitches × 2 rows into 2 stitches × 3 rows");
  await tabTo(page, page.getByRole("button", { name: "Let go" }));
  await page.keyboard.press("Enter");
  await tabTo(page, page.getByRole("button", { name: "None", exact: true }));
  await page.keyboard.press("Enter");
  expect(await rows(page)).toEqual(pasted);

  await tabTo(page, page.locator("summary", { hasText: "By numbers" }));
  await page.keyboard.press("Enter");
  for (const [field, number] of [
    ["From row", "1"],
    ["To row", "1"],
  ] as const) {
    await tabTo(page, page.getByRole("spinbutton", { name: field }));
    await page.keyboard.press("Control+a");
    await page.keyboard.type(number);
  }
  await page.keyboard.press("Shift+Tab");
  await page.keyboard.press("Control+a");
  await page.keyboard.type("1");
  await tabTo(page, page.getByRole("button", { name: "Draw the line" }));
  await page.keyboard.press("Enter");
  await expect(told(page)).toHaveText("a line, 12 stitches in rowan.");

  await tabTo(page, page.locator("summary", { hasText: "Rows and stitches" }));
  await page.keyboard.press("Enter");
  await tabTo(page, page.getByRole("button", { name: "Insert rows below" }));
  await page.keyboard.press("Enter");
  await expect(desk(page)).toHaveAccessibleName("cuff: 9 rows of 12 stitches");
  await page.keyboard.press("Control+z");
  await expect(desk(page)).toHaveAccessibleName("cuff: 8 rows of 12 stitches");

  await tabTo(page, page.getByRole("button", { name: "Add a colour" }), "Shift+Tab");
  await page.keyboard.press("Enter");
  await expect(page.getByRole("textbox", { name: "Name", exact: true })).toBeFocused();
  await page.keyboard.type("heather bell");
  await tabTo(page, page.getByRole("radio", { name: "contrast colour" }));
  await page.keyboard.press("ArrowLeft");
  await tabTo(page, page.getByRole("textbox", { name: "Hex, Lab or LCh" }));
  await page.keyboard.type("#7b5487");
  await tabTo(page, page.getByRole("button", { name: "Add it" }));
  await page.keyboard.press("Enter");
  await expect(page.getByRole("radio", { name: "L heather bell MC" })).toBeChecked();
  // There is one main colour: hoar was it before.
  await expect(page.locator(".palette-role")).toHaveCount(1);
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
});

test("by fingers: one draws, two look and draw nothing; the page fits a phone", async ({ browser }) => {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true });
  const page = await context.newPage();
  await emptyChart(page);
  await page.getByRole("radio", { name: "K rowan" }).check();
  const client = await context.newCDPSession(page);
  const touch = async (type: "touchStart" | "touchMove" | "touchEnd", ...stitches: (readonly [number, number])[]) => {
    const touchPoints = [];
    for (const [id, [row, column]] of stitches.entries())
      touchPoints.push({ id, ...(await pointOf(page, row, column)) });
    await client.send("Input.dispatchTouchEvent", { type, touchPoints });
  };
  await desk(page).scrollIntoViewIfNeeded();
  await touch("touchStart", [2, 2]);
  await touch("touchMove", [2, 5]);
  await touch("touchEnd");
  await expect(told(page)).toHaveText("4 stitches drawn in rowan.");
  const before = await rows(page);
  await touch("touchStart", [4, 4]);
  await touch("touchMove", [4, 6]);
  await touch("touchStart", [4, 6], [6, 9]);
  await client.send("Input.dispatchTouchEvent", {
    type: "touchMove",
    touchPoints: [
      { id: 0, x: 60, y: 300 },
      { id: 1, x: 330, y: 480 },
    ],
  });
  await touch("touchEnd");
  expect(await rows(page)).toEqual(before);
  const wide = await desk(page).evaluate((element) => element.scrollWidth - element.clientWidth);
  expect(wide).toBeGreaterThan(0);

  const parts = [".room", ".pattern-page", ".desk", ".desk-side"];
  const overflow = await page.evaluate(
    (names) => Math.max(...names.map((name) => document.querySelector(name)!.scrollWidth - window.innerWidth)),
    parts,
  );
  expect(overflow).toBeLessThanOrEqual(0);
  const small = await page
    .locator("main button:visible, main summary:visible, main select:visible")
    .evaluateAll((all) =>
      all
        .map((element) => ({ box: element.getBoundingClientRect(), name: element.outerHTML.slice(0, 80) }))
        .filter(({ box }) => box.width < 24 || box.height < 24)
        .map(({ name }) => name),
    );
  expect(small).toEqual([]);
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
  await page.getByRole("button", { name: "Charts", exact: true }).click();
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
  await context.close();
});
