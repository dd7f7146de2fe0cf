/** A chart that was printed on our own working sheet is found again in a picture of the sheet, with nearly all of its stitches. */
import { expect, it } from "vitest";
import { readChartPicture } from "../../src/intake/chartPicture.ts";
import { score } from "./chartWorld.ts";
import { pictureOfPage, printedSheet } from "./chartWorld/printed.ts";

it("pictures of printed sheets: every chart is found, and 19 of 20 of its stitches are right", async () => {
  let [cells, wrong] = [0, 0];
  for (const seed of [1, 2, 3]) {
    const { pages, truths } = printedSheet(seed);
    for (const [index, charts] of truths.entries()) {
      if (charts.length === 0) continue;
      const { pixels, truth } = await pictureOfPage(pages[index]!, charts, 150);
      const { charts: read } = score(truth, readChartPicture(pixels));
      expect(read.map(({ found }) => found)).toEqual(charts.map(() => true));
      for (const chart of read) [cells, wrong] = [cells + chart.cells, wrong + chart.wrong];
    }
  }
  // Known to be wrong: the dotted line of a long float in a stitch is taken for a sign.
  expect(wrong / cells).toBeLessThan(0.05);
}, 60_000);
