/** How long a chart picture of 12 megapixels takes to read, after decoding. Bar: under 2 seconds. */
import { seededRandom } from "../src/base/random.ts";
import { readChartPicture } from "../src/intake/chartPicture.ts";
import { pixelsOf } from "../src/raster/pixels.ts";

const WIDTH = 4000;
const HEIGHT = 3000;

/** A lined chart on white paper with a margin of 100 pixels, cells of `cell` pixels in 6 colours. */
function painted(cell: number, lined: boolean): Uint8ClampedArray {
  const random = seededRandom(cell);
  const palette = Array.from({ length: 6 }, () => [random(), random(), random()].map((part) => Math.floor(part * 230)));
  const columns = Math.floor((WIDTH - 200) / cell);
  const rows = Math.floor((HEIGHT - 200) / cell);
  const cells = Uint8Array.from({ length: columns * rows }, () => Math.floor(random() * 6));
  const bytes = new Uint8ClampedArray(WIDTH * HEIGHT * 4).fill(255);
  for (let y = 100; y <= 100 + rows * cell; y++) {
    for (let x = 100; x <= 100 + columns * cell; x++) {
      const onLine = (x - 100) % cell === 0 || (y - 100) % cell === 0;
      if (onLine && !lined) continue;
      const index =
        Math.min(rows - 1, Math.floor((y - 100) / cell)) * columns +
        Math.min(columns - 1, Math.floor((x - 100) / cell));
      bytes.set(onLine ? [60, 60, 60] : palette[cells[index]!]!, (y * WIDTH + x) * 4);
    }
  }
  return bytes;
}

for (const [cell, lined] of [
  [7, true],
  [7, false],
  [40, true],
  [120, true],
] as const) {
  const pixels = pixelsOf(WIDTH, HEIGHT, painted(cell, lined));
  const times: number[] = [];
  let read = "";
  for (let run = 0; run < 5; run++) {
    const start = performance.now();
    const { charts } = readChartPicture(pixels);
    times.push(performance.now() - start);
    read = charts[0] ? `${charts[0].rows[0]!.length} × ${charts[0].rows.length}` : "nothing";
  }
  const median = times.sort((one, other) => one - other)[2]!;
  console.log(
    `cells of ${cell} pixels, ${lined ? "lined" : "white lines"}: median ${median.toFixed(0)} ms, least ${times[0]!.toFixed(0)} ms, read ${read}`,
  );
}
