/** The page of her yarns, by keyboard: looked through, changed, held against each other, promised, and laid out on the bench. */
import { readFileSync } from "node:fs";
import AxeBuilder from "@axe-core/playwright";
import { expect, test, type Page } from "@playwright/test";
import { longNames, openBench, openText, tabTo, told } from "./journey.ts";

const EXAMPLE = "examples/weather-station-vest.twostrand.json";

async function openYarns(page: Page): Promise<void> {
  await tabTo(page, page.getByRole("button", { name: "Yarns", exact: true }));
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { name: "Your yarns", exact: true })).toBeVisible();
}

/** The picture of the shelf, whichever it is, and the yarn in it under her keys. */
const picture = (page: Page) => page.locator(".stash-view > [tabindex='0']");
const at = (page: Page) => page.locator(".stash-view [role=option]");

async function turnTo(page: Page, part: string): Promise<void> {
  await tabTo(page, page.locator(`.stash-parts button[data-part=${part}]`));
  await page.keyboard.press("Enter");
}

test("by keyboard: searched, seen by hue, weighed and undone, what is near, two strands twisted, promised", async ({
  page,
}) => {
  const { errors, strangers } = await openBench(page);
  await openYarns(page);
  await expect(page.getByText("These are the worked example’s yarns")).toBeVisible();
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);

  await tabTo(page, page.getByRole("searchbox", { name: "Search your yarns" }));
  await page.keyboard.type("2101");
  await expect(page.getByText("4 of 41 yarns")).toBeVisible();
  await tabTo(page, picture(page));
  // Of lot 2101 Storm is the lightest, and the dark ones follow.
  await expect(at(page)).toHaveAccessibleName(/^Storm, medium-dark, L\* 45, 33.g/);
  await page.keyboard.press("ArrowDown");
  await expect(at(page)).toHaveAccessibleName(/^Tarn, /);
  await page.keyboard.press("Space");
  await page.keyboard.press("End");
  await expect(at(page)).toHaveAccessibleName(/^Charcoal, /);
  await page.keyboard.press("Space");

  await tabTo(page, page.getByRole("radio", { name: "value" }), "Shift+Tab");
  await page.keyboard.press("ArrowRight");
  await expect(page.getByRole("listbox", { name: "Your yarns by hue" })).toBeVisible();
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);

  const grams = page.getByRole("textbox", { name: "Grams of lot 2101" });
  await tabTo(page, grams);
  await page.keyboard.press("Control+a");
  await page.keyboard.type("48,5");
  await page.keyboard.press("Enter");
  await tabTo(page, page.getByRole("checkbox", { name: "lot 2101 was weighed" }));
  await page.keyboard.press("Space");
  await expect(page.getByText(/^49.g weighed, about 204.m$/)).toBeVisible();
  await expect(told(page)).toHaveText("Charcoal: how lot 2101 is known, on the bench too.");
  await page.keyboard.press("Control+z");
  await page.keyboard.press("Control+z");
  await expect(page.getByText(/^52.g by the label, about 218.m$/)).toBeVisible();

  await turnTo(page, "near");
  const nearest = page.getByRole("list", { name: "Nearest yarns" }).getByRole("button").first();
  // ΔE00 of Lab 27 0 −2 and 26.5 −1 −3, by another implementation.
  await expect(nearest).toHaveText(/Graphite.*hardly to be told apart, ΔE00 1\.7; not told apart/);

  await turnTo(page, "twist");
  // Tarn has L* 42, Charcoal 27.
  await expect(page.getByText("15 apart in L*: it reads")).toBeVisible();
  await expect(page.getByRole("img", { name: "Tarn and Charcoal twisted together, in grey" })).toBeVisible();
  await expect(page.getByText(/^1×1: (lost|faint|clear) from 1\.5.m, V.\d/)).toBeVisible();
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);

  await turnTo(page, "project");
  await tabTo(page, page.getByRole("button", { name: "Promise what this project takes" }));
  await page.keyboard.press("Enter");
  await expect(told(page)).toHaveText("what Weather station vest takes is promised.");
  await expect(page.getByRole("button", { name: "All of it is promised" })).toBeDisabled();
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
  expect(errors).toEqual([]);
  expect(strangers).toEqual([]);
});

test("fits 390, 820 and 1440 pixels in every part, with names that go on and on and with nothing on the shelf", async ({
  page,
}) => {
  await openBench(page);
  await openText(page, longNames());
  await expect(told(page)).toHaveText(/is open\.$/);
  await page.getByRole("button", { name: "Yarns", exact: true }).click();
  const parts = page.locator(".stash-parts button:visible");
  await page.locator('.stash-parts button[data-part="project"]').click();
  await page.getByRole("button", { name: "Take the project’s yarns onto the shelf" }).click();
  await page.getByRole("searchbox").fill("go on");
  await page.locator(".plane").press("ArrowDown");
  await page.locator(".plane").press("Space");
  for (const width of [390, 820, 1440]) {
    await page.setViewportSize({ width, height: width === 390 ? 844 : 1000 });
    for (let at = 0; at < (await parts.count()); at++) {
      await parts.nth(at).click();
      const wide = await page.evaluate(() =>
        [".room", ".header", ".stash", ".stash-shelf", ".stash-side"].flatMap((part) => {
          const element = document.querySelector(part)!;
          return element.scrollWidth > element.clientWidth + 1 ? [part] : [];
        }),
      );
      expect(wide, `${width}, part ${at}`).toEqual([]);
      const small = await page.locator(".stash button:visible, .stash select:visible").evaluateAll((elements) =>
        elements
          .map((element) => ({ box: element.getBoundingClientRect(), name: element.outerHTML.slice(0, 80) }))
          .filter(({ box }) => box.width < 24 || box.height < 24)
          .map(({ name }) => name),
      );
      expect(small).toEqual([]);
    }
  }
  await page.getByText("Shelf file", { exact: true }).click();
  await page.getByRole("button", { name: "Begin with an empty shelf" }).click();
  await expect(page.getByText("Your shelf is empty.")).toBeVisible();
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
});

test("what a project leaves returns in one step; a yarn of another shelf is added, laid out and seen in the ladder’s list", async ({
  page,
}) => {
  await page.addInitScript(() => localStorage.setItem("twostrand-shelf-look", JSON.stringify({ picture: "list" })));
  const { errors } = await openBench(page);
  await openYarns(page);
  await turnTo(page, "project");
  await page.getByText("When it is knitted").click();
  await page.getByLabel("Grams left of Oatmeal").fill("51");
  await page.getByRole("button", { name: "Put it back on the shelf" }).click();
  await expect(told(page)).toHaveText("what Weather station vest left is back on the shelf.");
  await page.getByRole("button", { name: "Oatmeal" }).first().click();
  await expect(page.getByText(/^51.g weighed/)).toBeVisible();
  await page.getByRole("button", { name: /^Undo/ }).click();
  await expect(page.getByText(/^128.g by the label/)).toBeVisible();

  const { yarns } = JSON.parse(readFileSync(EXAMPLE, "utf8")) as { yarns: { name: string }[] };
  const other = {
    format: "twostrand-shelf",
    version: 1,
    yarns: [yarns[0], { id: "y1", name: "Bog asphodel", shade: { lab: [70, 8, 60] }, grams: 20 }],
  };
  const file = (text: string) => ({ name: "other.json", mimeType: "application/json", buffer: Buffer.from(text) });
  await page.getByLabel("Shelf file", { exact: true }).setInputFiles(file('{"format": "twostrand-shelf"'));
  await expect(page.getByRole("dialog")).toContainText("was not opened");
  await page.getByRole("button", { name: "Go on" }).click();
  await page.getByLabel("Shelf file", { exact: true }).setInputFiles(file(JSON.stringify(other)));
  await expect(page.getByRole("dialog")).toContainText("1 yarn of the file is there already");
  await page.getByRole("button", { name: "Add 1 yarn to mine" }).click();

  await page.getByRole("searchbox").fill("asphodel");
  await page.locator(".choose-box").click();
  await page.getByRole("button", { name: "Lay out on the bench" }).click();
  await expect(told(page)).toHaveText("Bog asphodel laid out.");
  await page.getByRole("button", { name: "Bench", exact: true }).click();
  await page.locator(".rung").first().click();
  await page.getByPlaceholder("name of a yarn").fill("asphodel");
  await expect(page.getByRole("option", { name: "Bog asphodel" })).toBeVisible();
  expect(errors).toEqual([]);
});
