/** Yarns from photographs: in, outlined, corrected, named, onto the shelf and into a colourway, all by keyboard; every kind of file; stopped. */
import AxeBuilder from "@axe-core/playwright";
import { expect, test, type Page } from "@playwright/test";
import { deltaE2000 } from "../../src/colour/difference.ts";
import { labFromHex, type Lab } from "../../src/colour/lab.ts";
import { CHART_LABS } from "../../src/intake/yarnPhoto/chart24.ts";
import { inksFile, photoFiles, refusedFiles } from "../intake/photoFiles.ts";
import { paintYarnPhoto } from "../intake/yarnPainter.ts";
import { openBench, tabTo, told } from "./journey.ts";
import sharp from "sharp";

async function openDoor(page: Page): Promise<void> {
  await tabTo(page, page.getByRole("button", { name: "Yarns", exact: true }));
  await page.keyboard.press("Enter");
  const door = page.getByRole("button", { name: "From a photograph" });
  await expect(door).toBeVisible();
  await tabTo(page, door);
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { name: "Yarns from photographs" })).toBeFocused();
}

const picker = (page: Page) => page.locator("input[type=file][multiple]");
const rows = (page: Page) => page.locator(".photo-yarn");
const rested = (page: Page) => expect(page.locator(".work-line")).not.toHaveAttribute("data-busy", "true");
const shownHex = async (page: Page, at: number): Promise<string> =>
  /#[0-9a-f]{6}/.exec((await rows(page).nth(at).locator(".photo-reading").textContent())!)![0];

test("a photograph with a chart: outlined, corrected, named, on the shelf, laid out and knitted with, all by keys", async ({
  page,
}) => {
  const { errors, strangers } = await openBench(page);
  await openDoor(page);
  const painted = paintYarnPhoto(4, CHART_LABS);
  const buffer = await sharp(painted.rgb, { raw: { width: painted.width, height: painted.height, channels: 3 } })
    .jpeg({ quality: 92 })
    .toBuffer();
  await picker(page).setInputFiles({ name: "balls.jpg", mimeType: "image/jpeg", buffer });
  await expect(page.getByText("A chart was found.")).toBeVisible({ timeout: 30_000 });
  await rested(page);
  const before = await rows(page).count();
  expect(before).toBeGreaterThan(4);

  // A correction: the last outline is removed, the first one moved and made narrower, and one is added in the middle.
  const hand = page.getByRole("application", { name: /^Outlines on the photograph/ });
  await tabTo(page, hand);
  await page.keyboard.press("End");
  await expect(told(page)).toHaveText(new RegExp(`^yarn ${before}: `));
  await page.keyboard.press("Delete");
  await expect(rows(page)).toHaveCount(before - 1);
  await page.keyboard.press("Home");
  for (let corner = 0; corner < 4; corner++) await page.keyboard.press("PageDown");
  await expect(told(page)).toHaveText(/^yarn 1: \d+ by \d+ pixels, /);
  const first = (await told(page).textContent())!;
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Shift+ArrowLeft");
  await expect(told(page)).not.toHaveText(first);
  const [wide, left] = [/: (\d+) by/, /, (\d+) from the left/].map((words) => Number(words.exec(first)![1]));
  await expect(told(page)).toHaveText(new RegExp(`: ${wide! - 3} by \\d+ pixels, ${left! + 3} from the left`));
  await tabTo(page, page.getByRole("button", { name: "Add in the middle" }), "Shift+Tab");
  await page.keyboard.press("Enter");
  await expect(rows(page)).toHaveCount(before);
  await page.getByRole("button", { name: `More about yarn ${before}` }).focus();
  await page.keyboard.press("Enter");
  await tabTo(page, page.getByRole("button", { name: "more from the top" }));
  await page.keyboard.press("Enter");
  await tabTo(page, page.getByRole("button", { name: `Remove yarn ${before}`, exact: true }).last());
  await page.keyboard.press("Enter");
  await expect(rows(page)).toHaveCount(before - 1);
  await rested(page);

  // Its shade is what was painted, as nearly as it says.
  const reading = (await rows(page).first().locator(".photo-reading").textContent())!;
  const range = Number(/± ([\d.]+)/.exec(reading)![1]);
  const lab = labFromHex(await shownHex(page, 0))!;
  const nearest = Math.min(...painted.yarns.map((yarn) => deltaE2000(lab, yarn.lab as Lab)));
  expect(nearest).toBeLessThan(2.5 * range);
  expect((await new AxeBuilder({ page }).include(".photo-yarns").analyze()).violations).toEqual([]);

  const name = page.getByLabel("Name of yarn 1", { exact: true });
  await tabTo(page, name);
  await page.keyboard.type("Station rust");
  await page.keyboard.press("Enter");
  await expect(page.getByLabel("Name of yarn 2", { exact: true })).toBeFocused();
  await page.keyboard.press("Shift+Enter");
  await expect(name).toBeFocused();
  await tabTo(page, page.locator("summary", { hasText: "What holds for all of them" }), "Shift+Tab");
  await page.keyboard.press("Enter");
  await tabTo(page, page.getByLabel("Maker").first());
  await page.keyboard.type("Sample Mill");
  await tabTo(page, page.getByLabel("Grams of each"));
  await page.keyboard.type("a ball");
  const put = page.getByRole("button", { name: `Put ${before - 1} yarns on the shelf` });
  await expect(put).toBeDisabled();
  await page.keyboard.press("ControlOrMeta+A");
  await page.keyboard.type("25");
  await put.focus();
  await page.keyboard.press("Enter");
  await expect(told(page)).toHaveText(`${before - 1} yarns put on the shelf.`);
  await expect(page.getByRole("heading", { name: "Your yarns", exact: true })).toBeVisible();

  const search = page.getByRole("searchbox").first();
  await tabTo(page, search);
  await page.keyboard.type("station rust");
  await tabTo(page, page.locator(".stash-view [tabindex='0']").first());
  await page.keyboard.press("Home");
  await page.keyboard.press("Space");
  const layOut = page.getByRole("button", { name: "Lay out on the bench" }).first();
  await tabTo(page, layOut);
  await page.keyboard.press("Enter");
  await expect(told(page)).toHaveText("Station rust laid out.");
  await tabTo(page, page.getByRole("button", { name: "Bench", exact: true }), "Shift+Tab");
  await page.keyboard.press("Enter");
  const rung = page.getByRole("button", { name: /^K, rowan/ });
  await tabTo(page, rung);
  await page.keyboard.press("Enter");
  await expect(page.getByRole("combobox", { name: /^Your yarns/ })).toBeFocused();
  await page.keyboard.type("station");
  await expect(page.getByRole("listbox", { name: "Yarns for K" }).getByRole("option")).toHaveCount(1);
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("Enter");
  await expect(rung).toHaveAccessibleName(/Station rust/);
  expect(errors).toEqual([]);
  expect(strangers).toEqual([]);
});

test("every kind of file is read alike, or refused with a sentence that says what to do", async ({ page }) => {
  await openBench(page);
  await openDoor(page);
  const good = await photoFiles();
  const bad = [...refusedFiles(), { ...(await inksFile()), says: "made over for print" }];
  await picker(page).setInputFiles([...bad, ...good].map(({ name, mimeType, buffer }) => ({ name, mimeType, buffer })));
  const thumb = (name: string) => page.getByRole("button", { name: new RegExp(`^${name} `) });
  for (const { name, says } of bad) {
    await expect(thumb(name)).toContainText("not opened");
    await thumb(name).click();
    await expect(page.getByRole("alert")).toContainText(`${name} was not opened`);
    await expect(page.getByRole("alert")).toContainText(says);
  }
  await expect(page.locator(".photo-thumb", { hasText: /\d yarns?$/ })).toHaveCount(good.length, { timeout: 60_000 });
  await rested(page);
  await expect(rows(page)).toHaveCount(2 * good.length);
  for (const [at, { name, isGrey }] of good.entries())
    for (const ball of [0, 1]) {
      const [lab, plain] = [labFromHex(await shownHex(page, 2 * at + ball))!, labFromHex(await shownHex(page, ball))!];
      if (isGrey) expect(Math.hypot(lab[1], lab[2])).toBeLessThan(1.5);
      else expect(deltaE2000(lab, plain), name).toBeLessThan(1.5);
    }
});

test("work that is stopped stops at once, and goes on when she wants; the page answers meanwhile", async ({ page }) => {
  await openBench(page);
  await openDoor(page);
  const [plain] = await photoFiles();
  const buffer = await sharp(plain!.buffer).resize(3000, 2000).jpeg({ quality: 85 }).toBuffer();
  await picker(page).setInputFiles({ name: "large.jpg", mimeType: "image/jpeg", buffer });
  await expect(page.getByRole("progressbar")).toBeVisible();
  const stop = page.getByRole("button", { name: "Stop", exact: true });
  await stop.focus();
  await page.keyboard.press("Enter");
  await expect(page.getByText("Stopped.")).toBeVisible();
  await expect(stop).toBeHidden();
  await expect(rows(page)).toHaveCount(0);
  await page.getByRole("button", { name: "Go on" }).click();
  await expect(rows(page)).toHaveCount(2, { timeout: 30_000 });
  await rested(page);
  // A name may be written while the photograph is measured anew by another reference.
  await page.getByLabel("Neutral in this photograph").selectOption({ label: "nothing" });
  await page.getByLabel("Name of yarn 2", { exact: true }).fill("Lichen");
  await rested(page);
  await page.getByLabel("Neutral in this photograph").selectOption({ label: "white paper" });
  await page.getByRole("button", { name: "Put a frame in the middle" }).click();
  await page.getByLabel("The paper is").selectOption({ label: "natural or cream" });
  await expect(page.getByText("Cast and brightness are taken from it")).toBeVisible({ timeout: 30_000 });
  // What she has done so far is there when she comes back.
  await page.getByRole("button", { name: "Bench", exact: true }).click();
  await page.getByRole("button", { name: "Yarns", exact: true }).click();
  await page.getByRole("button", { name: "From a photograph" }).click();
  await expect(page.getByLabel("Name of yarn 2", { exact: true })).toHaveValue("Lichen");

  // By pointer: two presses at opposite corners draw a box; a grip resizes it, a pull moves it; what is the card is no yarn.
  await page.getByLabel("add a box").check();
  const frame = (await page.locator(".framed-picture img").boundingBox())!;
  const at = (across: number, down: number) => [frame.x + across * frame.width, frame.y + down * frame.height] as const;
  await page.mouse.click(...at(0.05, 0.05));
  await expect(page.locator(".photo-hint").first()).toHaveText("Now press at the opposite corner.");
  await page.mouse.click(...at(0.15, 0.2));
  await expect(rows(page)).toHaveCount(3);
  await page.getByLabel("correct", { exact: true }).check();
  await page.getByRole("button", { name: "More about yarn 3" }).click();
  const field = (name: string) => page.locator(".photo-yarn-more").getByLabel(name, { exact: true });
  const near = async (name: string, pixels: number) =>
    expect(Math.abs(Number(await field(name).inputValue()) - pixels)).toBeLessThan(40);
  await near("from the left", 150);
  await near("wide", 300);
  const pull = async (from: readonly [number, number], to: readonly [number, number]) => {
    await page.mouse.move(...from);
    await page.mouse.down();
    await page.mouse.move(...to, { steps: 3 });
    await page.mouse.up();
  };
  await pull(at(0.15, 0.2), at(0.25, 0.2));
  await near("wide", 600);
  await pull(at(0.08, 0.08), at(0.18, 0.08));
  await near("from the left", 450);
  // What the hand has pulled, the keys go on with.
  await page.keyboard.press("ArrowRight");
  await near("from the left", 465);
  await expect(page.getByRole("application", { name: /^Outlines on the photograph/ })).toBeFocused();
  await page.getByRole("button", { name: "It is the grey card" }).click();
  await expect(rows(page)).toHaveCount(2);
  await expect(page.getByLabel("Neutral in this photograph")).toHaveValue("grey");
  await page.getByRole("button", { name: "Take large.jpg away" }).click();
  await expect(page.getByText("By a window in daylight")).toBeVisible();
});
