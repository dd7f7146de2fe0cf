/** How many charts of each family of pictures are read to the last stitch. Arguments: pictures a family, first seed, a family. */
import { seededRandom } from "../src/base/random.ts";
import { readChartPicture } from "../src/intake/chartPicture.ts";
import { FAMILIES, paintCells } from "../test/intake/cellPainter.ts";

/** Ids renamed in the order in which they are met. */
function renamed(rows: readonly string[]): string {
  const names = new Map<string, number>();
  return rows
    .map((row) => Array.from(row, (id) => names.get(id) ?? (names.set(id, names.size), names.size - 1)).join())
    .join("\n");
}

const [count = 100, first = 1, only] = process.argv
  .slice(2)
  .map((text) => (Number.isNaN(Number(text)) ? text : Number(text)));
for (const family of FAMILIES) {
  if (only !== undefined && !family.startsWith(String(only))) continue;
  const tally = { exact: 0, told: 0, hidden: 0, hiddenExact: 0, hiddenSure: 0, sure: 0, modest: 0 };
  const wrong: string[] = [];
  for (let seed = Number(first); seed < Number(first) + Number(count); seed++) {
    const { rows, pixels, edgeHidden } = await paintCells(family, seededRandom(seed));
    const [chart] = readChartPicture(pixels).charts;
    const exact = renamed(chart?.rows ?? []) === renamed(rows);
    const confidence = chart?.confidence ?? 0;
    if (edgeHidden) {
      tally.hidden++;
      if (exact) tally.hiddenExact++;
      if (confidence >= 0.9 && !exact) tally.hiddenSure++;
      if (confidence >= 0.9 && !exact && process.env["HIDDEN"])
        console.log(
          `    hidden ${seed} ${pixels.width}x${pixels.height} wanted ${rows[0]!.length}×${rows.length} in ${new Set(rows.join("")).size}, got ${chart!.rows[0]!.length}×${chart!.rows.length} in ${Object.keys(chart!.colours).length}`,
        );
      continue;
    }
    if (exact) {
      tally.exact++;
      if (confidence < 0.9) tally.modest++;
    } else {
      if (confidence >= 0.9) tally.sure++;
      wrong.push(
        `${seed} ${pixels.width}x${pixels.height} wanted ${rows[0]!.length}×${rows.length} in ${new Set(rows.join("")).size}, got ${chart ? `${chart.rows[0]!.length}×${chart.rows.length} in ${Object.keys(chart.colours).length}` : "nothing"} at ${confidence.toFixed(2)}`,
      );
    }
  }
  const seen = Number(count) - tally.hidden;
  console.log(
    `${family}: ${tally.exact} of ${seen} exact (${((100 * tally.exact) / seen).toFixed(1)} %), ${tally.sure} wrong and sure, ${tally.modest} right and unsure; edge hidden: ${tally.hidden}, of them exact ${tally.hiddenExact}, wrong and sure ${tally.hiddenSure}`,
  );
  if (process.env["SHOW"]) for (const line of wrong.slice(0, Number(process.env["SHOW"]))) console.log("   ", line);
}
