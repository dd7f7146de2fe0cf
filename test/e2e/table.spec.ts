/** A table of yarns in, all by keyboard: read, a column put right, kept in one act, the same again, and the shelf as a table. */
import { readFileSync } from "node:fs";
import AxeBuilder from "@axe-core/playwright";
import { expect, test, type Page } from "@playwright/test";
import { openBench, tabTo, told } from "./journey.ts";

/** Oatmeal and Silver are on the shelf already: 128 g and 74 g, each with a range of 2. */
const TABLE = [
  "Navn;Farge;Vekt (g);Løpelengde;Hylle;Merknad",
  "Oatmeal;;128;420 m/100 g;;",
  "Silver;;90;420 m/100 g;;",
  "Blåbær;#3b3f5c;ca. 12 g;105 m/25 g;2207;fra lua",
  "Sokker;mørkeblå;30;;;",
  "Rust;#a5502a;-4;;;",
  "Sum;;300;;;",
  "",
].join("\n");

async function openDoor(page: Page): Promise<void> {
  await tabTo(page, page.getByRole("button", { name: "Yarns", exact: true }));
  await page.keyboard.press("Enter");
  await tabTo(page, page.getByRole("button", { name: "From a table" }));
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { name: "Yarns from a table" })).toBeFocused();
}

async function paste(page: Page, text: string): Promise<void> {
  await tabTo(page, page.getByRole("textbox", { name: "Or paste its cells" }));
  await page.keyboard.insertText(text);
  await tabTo(page, page.getByRole("button", { name: "Read what is pasted" }));
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { name: "What was pasted" })).toBeFocused();
}

test("a table by keyboard: a column put right, one act, undone, the same again changes nothing, and out again", async ({
  page,
}) => {
  const { errors, strangers } = await openBench(page);
  await openDoor(page);
  expect((await new AxeBuilder({ page }).include(".table-yarns").analyze()).violations).toEqual([]);
  await paste(page, TABLE);
  await expect(told(page)).toHaveText("5 yarns found: 2 new, 1 changed, 1 the same, 1 without a shade.");
  await expect(page.getByText("Line 6, the grams: expected 0 or more, found -4.")).toBeVisible();
  await expect(page.getByText("Line 7, the line: expected a yarn, found a total; left out.")).toBeVisible();
  expect((await new AxeBuilder({ page }).include(".table-yarns").analyze()).violations).toEqual([]);

  const column = page.getByRole("combobox", { name: "Hylle" });
  await expect(column).toHaveValue("not used");
  await tabTo(page, column);
  await page.keyboard.type("lot");
  await expect(column).toHaveValue("lot");
  await expect(page.locator(".column-card", { has: column }).getByText("as you said")).toBeVisible();

  const named = page.getByRole("checkbox", { name: "Bring in 1 yarn by the colour’s name" });
  await tabTo(page, named);
  await expect(page.getByText(/taken as dark blue, ± \d\d \(ΔE00\), an estimate/)).toBeVisible();
  await page.keyboard.press("Space");
  await expect(told(page)).toHaveText("5 yarns found: 3 new, 1 changed, 1 the same.");
  const changes = page.locator(".table-changes");
  await expect(changes).toContainText(/Silver.*74 g.*90 g/);

  const put = page.getByRole("button", { name: "Put 3 yarns on the shelf and change 1" });
  await tabTo(page, put);
  await page.keyboard.press("Enter");
  await expect(told(page)).toHaveText("3 yarns put on the shelf, 1 changed.");
  await expect(page.getByText(/^44 yarns, /)).toBeVisible();
  await page.keyboard.press("ControlOrMeta+Z");
  await expect(page.getByText(/^41 yarns, /)).toBeVisible();
  await page.keyboard.press("ControlOrMeta+Shift+Z");
  await expect(page.getByText(/^44 yarns, /)).toBeVisible();

  await tabTo(page, page.getByRole("button", { name: "From a table" }));
  await page.keyboard.press("Enter");
  await paste(page, TABLE.replace("Hylle", "Parti"));
  await expect(told(page)).toHaveText("5 yarns found: 0 new, 0 changed, 5 the same.");
  await expect(page.getByRole("button", { name: "Nothing in this table is new" })).toBeDisabled();

  await tabTo(page, page.getByRole("button", { name: "Another table" }));
  await page.keyboard.press("Enter");
  const download = page.waitForEvent("download");
  await tabTo(page, page.getByRole("button", { name: "Save yarns.csv" }));
  await page.keyboard.press("Enter");
  const text = readFileSync(await (await download).path(), "utf8");
  expect(text.split("\r\n")[0]).toContain("id,name,maker");
  expect(text).toContain("Blåbær");
  await page
    .locator(".table-yarns input[type=file]")
    .setInputFiles({ name: "yarns.csv", mimeType: "text/csv", buffer: Buffer.from(text) });
  await expect(told(page)).toHaveText("44 yarns found: 0 new, 0 changed, 44 the same.");
  expect(errors).toEqual([]);
  expect(strangers).toEqual([]);
});

test("on a phone: Windows-1252 read, a workbook refused with what to do, a change left out", async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  const { errors } = await openBench(page);
  await page.getByRole("button", { name: "Yarns", exact: true }).first().click();
  await page.getByRole("button", { name: "From a table" }).click();
  const file = page.locator(".table-yarns input[type=file]");
  await file.setInputFiles({
    name: "mine.csv",
    mimeType: "text/csv",
    buffer: Buffer.from("PK\u0003\u0004rest", "latin1"),
  });
  await expect(
    page.locator(".table-refused").getByText(/a table saved as text .*CSV UTF-8.*found a spreadsheet's workbook/),
  ).toBeVisible();
  await file.setInputFiles({ name: "gamle.csv", mimeType: "text/csv", buffer: Buffer.from(TABLE, "latin1") });
  await expect(page.getByRole("heading", { name: "gamle.csv" })).toBeFocused();
  await expect(page.getByText("Blåbær").first()).toBeVisible();
  await page.getByText("How it is written").click();
  await expect(page.getByRole("combobox", { name: "Letters" })).toHaveValue("windows-1252");
  await page.locator(".table-changes").getByRole("checkbox", { name: "Silver" }).uncheck();
  await expect(page.getByRole("button", { name: "Put 2 yarns on the shelf", exact: true })).toBeVisible();
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
  expect((await new AxeBuilder({ page }).include(".table-yarns").analyze()).violations).toEqual([]);
  expect(errors).toEqual([]);
});
