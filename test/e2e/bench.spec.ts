/** Journeys over the bench in a real browser, by keyboard wherever a hand could need it. */
import { readFileSync } from "node:fs";
import AxeBuilder from "@axe-core/playwright";
import { expect, test } from "@playwright/test";
import { chooseColourway, fabricPixels, openBench, ready, tabTo, told } from "./journey.ts";

const EXAMPLE = "examples/weather-station-vest.twostrand.json";

test("opens on the worked example and shows its fabric; nothing leaves the origin", async ({ page }) => {
  const { strangers, errors } = await openBench(page);
  await expect(page.getByLabel("Project name")).toHaveValue("Weather station vest");
  // Eleven yarns, shaded: a grey or empty canvas has a handful of colours.
  await expect.poll(async () => (await fabricPixels(page)).colours).toBeGreaterThan(40);
  await expect(page.getByText("Nothing to mend")).toBeVisible();
  expect(strangers).toEqual([]);
  expect(errors).toEqual([]);
});

test("by keyboard: the faulty colourway, its finding, a mend tried and kept, undone and done again", async ({
  page,
}) => {
  const { errors } = await openBench(page);
  await chooseColourway(page, "second try");
  const finding = page.locator(".finding").first();
  await expect(finding.getByRole("heading")).toContainText("Row 68");
  await expect(finding).toContainText("lost");
  const faults = page.locator("#findings-title .count");
  await expect(faults).toContainText("1 fault");

  await tabTo(page, finding.getByRole("button", { name: "Show row 68" }));
  await page.keyboard.press("Enter");
  await expect(told(page)).toHaveText(/row 68, framed/);

  const mend = finding.locator(".mend").first();
  await tabTo(page, mend);
  await page.keyboard.press("Enter");
  const tried = page.getByRole("group", { name: "A change that is tried" });
  await expect(tried).toBeVisible();
  await expect(tried.getByRole("button", { name: "Keep" })).toBeFocused();
  await expect(page.getByRole("button", { name: "Undo", exact: true })).toBeDisabled();

  await page.keyboard.press("Escape");
  await expect(tried).toBeHidden();
  await expect(mend).toBeFocused();
  await page.keyboard.press("Enter");
  await page.keyboard.press("Enter");
  await expect(tried).toBeHidden();
  await expect(faults).not.toContainText("fault");

  await page.keyboard.press("Control+z");
  await expect(faults).toContainText("1 fault");
  await expect(told(page)).toHaveText(/^Undone: /);
  await page.keyboard.press("Control+Shift+z");
  await expect(faults).not.toContainText("fault");
  await page.keyboard.press("Control+z");
  await page.keyboard.press("Control+y");
  await expect(faults).not.toContainText("fault");
  expect(errors).toEqual([]);
});

test("by keyboard: a yarn for a colour, found by its name", async ({ page }) => {
  await openBench(page);
  const rung = page.getByRole("button", { name: /^K, rowan/ });
  await tabTo(page, rung);
  await expect(rung).toHaveAccessibleName(/Knitted in Ember/);
  await page.keyboard.press("Enter");
  const search = page.getByRole("combobox", { name: /^Your yarns/ });
  await expect(search).toBeFocused();
  const options = page.getByRole("dialog").getByRole("option");
  await expect(options.first()).toContainText("as light");
  await page.keyboard.type("tarn");
  await expect(options).toHaveCount(1);
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("Enter");
  await expect(page.getByRole("dialog")).toBeHidden();
  await expect(rung).toHaveAccessibleName(/Knitted in Tarn/);
  await expect(told(page)).toHaveText("Tarn for K.");
  await expect(rung).toBeFocused();

  await page.keyboard.press("Enter");
  await expect(search).toBeFocused();
  await page.keyboard.press("Escape");
  await expect(page.getByRole("dialog")).toBeHidden();
  await expect(rung).toHaveAccessibleName(/Knitted in Tarn/);
});

test("by pointer: a yarn carried to a colour, and a colour to a yarn", async ({ page }) => {
  await openBench(page);
  const middle = async (selector: string) => {
    const box = (await page.locator(selector).boundingBox())!;
    return { x: box.x + 20, y: box.y + box.height / 2 };
  };
  const carry = async (from: { x: number; y: number }, to: { x: number; y: number }) => {
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move((from.x + to.x) / 2, (from.y + to.y) / 2, { steps: 4 });
    await page.mouse.move(to.x, to.y, { steps: 4 });
    await page.mouse.up();
  };
  await carry(await middle('.held:has-text("Midnight")'), await middle('.rung:has-text("A")'));
  await expect(page.getByRole("button", { name: /^A, hoar/ })).toHaveAccessibleName(/Knitted in Midnight/);
  await expect(page.locator(".crossings")).toContainText("changed places");
  await expect(page.locator(".link.heavy").first()).toBeAttached();
  await page.keyboard.press("Control+z");
  await carry(await middle('.rung:has-text("K")'), await middle('.held:has-text("Storm")'));
  await expect(page.getByRole("button", { name: /^K, rowan/ })).toHaveAccessibleName(/Knitted in Storm/);
});

test("by keyboard: three ways that keep no finding; one is tried and kept beside the others", async ({ page }) => {
  await openBench(page);
  await chooseColourway(page, "second try");
  await expect(page.locator("#findings-title .count")).toContainText("1 fault");
  await tabTo(page, page.getByRole("button", { name: "Find ways" }));
  await page.keyboard.press("Enter");
  await expect(page.getByRole("button", { name: "Find ways again" })).toBeVisible({ timeout: 75_000 });
  const ways = page.locator(".way");
  expect(await ways.count()).toBeGreaterThanOrEqual(3);
  for (const way of await ways.all()) await expect(way).toContainText("The checks find nothing against it");

  const name = (await ways.nth(1).getByRole("heading").textContent())!.replace(/^Way 2: /, "");
  await tabTo(page, ways.nth(1).getByRole("button"));
  await page.keyboard.press("Enter");
  await expect(page.getByRole("button", { name: "Keep" })).toBeFocused();
  await page.keyboard.press("Enter");
  const select = page.getByRole("combobox", { name: "Colourway" });
  await expect(select.locator("option:checked")).toHaveText(name, { ignoreCase: true });
  await expect(select.locator("option")).toHaveCount(4);
  await expect(page.getByText("Nothing to mend")).toBeVisible();
});

test("a colour that is held fast stays in every way", async ({ page }) => {
  await openBench(page);
  const lock = page.getByRole("button", { name: /^Hold K, rowan/ });
  await lock.click();
  await expect(lock).toHaveAttribute("aria-pressed", "true");
  await page.getByRole("button", { name: "Find ways" }).click();
  await expect(page.getByRole("button", { name: "Find ways again" })).toBeVisible({ timeout: 75_000 });
  await page.locator(".way").last().getByRole("button").click();
  await page.getByRole("button", { name: "Keep" }).click();
  await expect(page.getByRole("button", { name: /^K, rowan/ })).toHaveAccessibleName(/Knitted in Ember/);
});

test("a search can be stopped, and the bench goes on", async ({ page }) => {
  await openBench(page);
  await page.getByRole("button", { name: "Find ways" }).click();
  const stop = page.getByRole("button", { name: "Stop" });
  if (await stop.isVisible()) await stop.click({ timeout: 2000 }).catch(() => undefined);
  await expect(page.getByRole("button", { name: "Find ways again" })).toBeVisible();
  await chooseColourway(page, "second try");
  await expect(page.locator("#findings-title .count")).toContainText("1 fault");
});

test("one distance rules the gutter, the findings and the fabric as seen", async ({ page }) => {
  await openBench(page);
  const count = page.locator(".fabric-count");
  const near = await count.textContent();
  const plain = await fabricPixels(page);
  const slider = page.getByRole("slider");
  await slider.focus();
  await expect(slider).toHaveAttribute("aria-valuetext", /1\.5.m, across a table/);
  await page.keyboard.press("End");
  await expect(page.locator(".distance-metres")).toHaveText(/6.m/);
  await expect(count).not.toHaveText(near!);
  await page.getByRole("switch", { name: "as seen" }).check();
  await expect.poll(async () => (await fabricPixels(page)).sum).not.toBe(plain.sum);
  await expect(page.locator("canvas[data-waiting=false]")).toBeAttached({ timeout: 20_000 });
  const far = await fabricPixels(page);
  await page.getByRole("switch", { name: "grey" }).check();
  await expect.poll(async () => (await fabricPixels(page)).colours).toBeLessThan(far.colours);
});

test("a reload keeps the work", async ({ page }) => {
  await openBench(page);
  await page.getByLabel("Project name").fill("Vest for the long night");
  await page.keyboard.press("Enter");
  await page.getByRole("button", { name: "Copy this colourway" }).click();
  await expect(page.getByRole("combobox", { name: "Colourway" }).locator("option")).toHaveCount(4);
  await expect(page.locator(".kept")).toHaveText(/^kept · \d\d:\d\d$/);
  await page.reload();
  await ready(page);
  await expect(page.getByLabel("Project name")).toHaveValue("Vest for the long night");
  await expect(page.getByRole("combobox", { name: "Colourway" }).locator("option")).toHaveCount(4);
});

test("saves what was opened, byte for byte, unknown fields too", async ({ page }, info) => {
  await openBench(page);
  const text = readFileSync(EXAMPLE, "utf8").replace(
    '"version": 1,',
    '"version": 1,\n  "x-later": { "b": [1, 2], "a": null },',
  );
  const file = info.outputPath("mine.twostrand.json");
  await (await import("node:fs/promises")).writeFile(file, text);
  await page.locator("input[type=file]").setInputFiles(file);
  await expect(told(page)).toHaveText("Weather station vest is open.");
  await page.reload();
  await ready(page);
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save to a project file" }).click();
  const saved = await download;
  expect(saved.suggestedFilename()).toBe("weather-station-vest.twostrand.json");
  expect(readFileSync(await saved.path(), "utf8")).toBe(text);
});

test("a file that cannot be read gives sentences, and nothing is lost", async ({ page }) => {
  await openBench(page);
  await page.getByLabel("Project name").fill("Mine");
  await page.keyboard.press("Enter");
  const open = (name: string, text: string) =>
    page.locator("input[type=file]").setInputFiles({ name, mimeType: "application/json", buffer: Buffer.from(text) });
  const dialog = page.getByRole("dialog");
  const example = readFileSync(EXAMPLE, "utf8");

  await open("torn.json", example.slice(0, 900));
  await expect(dialog).toContainText("torn.json was not opened");
  await expect(dialog).toContainText("What is on the bench has stayed as it was.");
  await page.keyboard.press("Escape");
  await expect(dialog).toBeHidden();

  await open("newer.json", example.replace('"version": 1', '"version": 7'));
  await expect(dialog).toContainText("newer Twostrand");
  await page.getByRole("button", { name: "Go on" }).click();

  await open("other.json", "[1, 2]");
  await expect(dialog).toContainText("expected");
  await page.getByRole("button", { name: "Go on" }).click();
  await expect(page.getByLabel("Project name")).toHaveValue("Mine");
  await expect(page.getByRole("combobox", { name: "Colourway" }).locator("option")).toHaveCount(3);
});

test("a project without yarns or colourways is told in words, and its opening can be undone", async ({ page }) => {
  const { errors } = await openBench(page);
  const bare = {
    format: "twostrand-project",
    version: 1,
    name: "Nothing yet",
    pattern: {
      gauge: { stitches: 28, rows: 30 },
      colours: [
        { id: "A", shade: { hex: "#eeeeee" } },
        { id: "B", shade: { hex: "#333333" } },
      ],
      charts: [{ id: "c1", rows: ["ABAB", "BABA", "AAAA"] }],
    },
    yarns: [],
    colourways: [],
  };
  await page
    .locator("input[type=file]")
    .setInputFiles({ name: "bare.json", mimeType: "application/json", buffer: Buffer.from(JSON.stringify(bare)) });
  await expect(page.getByText("There is a chart and no colourway yet.")).toBeVisible();
  await page.getByRole("button", { name: "Begin a colourway" }).click();
  await ready(page);
  await expect(page.getByText("A, B have no yarn yet")).toBeVisible();
  await expect(page.getByText("There are no yarns here yet")).toBeVisible();
  await expect(page.getByText("Ways are made of your yarns")).toBeVisible();
  await page.getByRole("button", { name: /^A, / }).click();
  await expect(page.getByText("There are no yarns yet.")).toBeVisible();
  await page.keyboard.press("Escape");
  await page.keyboard.press("Control+z");
  await page.keyboard.press("Control+z");
  await expect(page.getByLabel("Project name")).toHaveValue("Weather station vest");
  await ready(page);
  expect(errors).toEqual([]);
});

test("the working sheet is a PDF", async ({ page }) => {
  await openBench(page);
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: "Working sheet (PDF)" }).click();
  const saved = await download;
  expect(saved.suggestedFilename()).toBe("weather-station-vest-first-snow.pdf");
  expect(
    readFileSync(await saved.path())
      .subarray(0, 5)
      .toString(),
  ).toBe("%PDF-");
});

test("no serious accessibility violation, with findings, a trial, the yarns and a message open", async ({ page }) => {
  await openBench(page);
  const judge = async () => {
    const { violations } = await new AxeBuilder({ page })
      .withTags(["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"])
      .analyze();
    return violations
      .filter(({ impact }) => impact === "serious" || impact === "critical")
      .map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(" ")).join(", ")}`);
  };
  expect(await judge()).toEqual([]);
  await chooseColourway(page, "second try");
  await page.locator(".mend").first().click();
  await expect(page.getByRole("button", { name: "Keep" })).toBeFocused();
  expect(await judge()).toEqual([]);
  await page.keyboard.press("Escape");
  await page.getByRole("button", { name: /^K, rowan/ }).click();
  await expect(page.getByRole("combobox", { name: /^Your yarns/ })).toBeFocused();
  expect(await judge()).toEqual([]);
  await page.keyboard.press("Escape");
  await page
    .locator("input[type=file]")
    .setInputFiles({ name: "other.json", mimeType: "application/json", buffer: Buffer.from("{}") });
  await expect(page.getByRole("dialog")).toBeVisible();
  expect(await judge()).toEqual([]);
});

test("where the browser keeps nothing she is told in a sentence, and can work and save", async ({ page }) => {
  await page.addInitScript(() => {
    indexedDB.open = () => {
      throw new DOMException("no storage here", "SecurityError");
    };
  });
  await page.goto("/");
  await expect(page.getByRole("alert")).toContainText("save it to a file");
  await expect(page.locator("canvas[data-waiting=false]")).toBeAttached({ timeout: 30_000 });
  await page.getByRole("button", { name: "Copy this colourway" }).click();
  await expect(page.getByRole("combobox", { name: "Colourway" }).locator("option")).toHaveCount(4);
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save to a project file" }).click();
  const { colourways } = JSON.parse(readFileSync(await (await download).path(), "utf8")) as { colourways: unknown[] };
  expect(colourways).toHaveLength(4);
});

test("walking the yarns shows each on the fabric, and leaving takes it back", async ({ page }) => {
  await openBench(page);
  const before = await fabricPixels(page);
  await page.getByRole("button", { name: /^A, hoar/ }).click();
  await expect(page.getByRole("combobox", { name: /^Your yarns/ })).toBeFocused();
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("ArrowDown");
  await expect.poll(async () => (await fabricPixels(page)).sum).not.toBe(before.sum);
  await page.keyboard.press("Escape");
  await page.keyboard.press("Escape");
  await expect(page.getByRole("dialog")).toBeHidden();
  await expect.poll(async () => (await fabricPixels(page)).sum).toBe(before.sum);
  await expect(page.getByRole("button", { name: "Undo", exact: true })).toBeDisabled();
});

test("starts again without a network", async ({ page, context }) => {
  await openBench(page);
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  await context.setOffline(true);
  await page.reload();
  await ready(page);
  await expect.poll(async () => (await fabricPixels(page)).colours).toBeGreaterThan(40);
});
