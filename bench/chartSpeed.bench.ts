/** How long pictures of 12 and 48 megapixels take to read after decoding, and what memory they take. Bars: 2 s and 6 s. */
import sharp from "sharp";
import { seededRandom } from "../src/base/random.ts";
import { readChartPicture } from "../src/intake/chartPicture.ts";
import { pixelsOf, type Pixels } from "../src/raster/pixels.ts";
import { paintScene, type Family } from "../test/intake/chartWorld.ts";
import { rawOf } from "../test/intake/chartWorld/camera.ts";
import { chanceOf } from "../test/intake/chartWorld/chance.ts";
import { median } from "../test/intake/chartWorld/figures.ts";
import { sceneOf } from "../test/intake/chartWorld/families.ts";

const MEGAPIXELS = 1e6;
const [rounds = "3"] = process.argv.slice(2);

/** A lined chart on white paper with a margin of 100 pixels, cells of `cell` pixels in 6 colours. */
function drawn(width: number, height: number, cell: number, lined: boolean): Pixels {
  const random = seededRandom(cell);
  const palette = Array.from({ length: 6 }, () => [random(), random(), random()].map((part) => Math.floor(part * 230)));
  const [columns, rows] = [Math.floor((width - 200) / cell), Math.floor((height - 200) / cell)];
  const cells = Uint8Array.from({ length: columns * rows }, () => Math.floor(random() * 6));
  const bytes = new Uint8ClampedArray(width * height * 4).fill(255);
  for (let y = 100; y <= 100 + rows * cell; y++)
    for (let x = 100; x <= 100 + columns * cell; x++) {
      const onLine = (x - 100) % cell === 0 || (y - 100) % cell === 0;
      if (onLine && !lined) continue;
      const row = Math.min(rows - 1, Math.floor((y - 100) / cell));
      const column = Math.min(columns - 1, Math.floor((x - 100) / cell));
      bytes.set(onLine ? [60, 60, 60] : palette[cells[row * columns + column]!]!, (y * width + x) * 4);
    }
  return pixelsOf(width, height, bytes);
}

/** A scene of the family so large that it fills 12 megapixels. */
async function photographed(family: Family, seed: number): Promise<Pixels> {
  const chance = chanceOf(seededRandom(seed));
  const scene = sceneOf(family, chance);
  const damage = { ...scene.damage, scale: 100, most: 12 * MEGAPIXELS, blur: scene.damage.blur * 2 };
  return (await paintScene(family, { ...scene, damage }, chance)).pixels;
}

/** As telephones make 48 megapixels of a sensor's 12. */
const fourfold = ({ width, height, rgba }: Pixels): Promise<Pixels> =>
  rawOf(sharp(rgba, { raw: { width, height, channels: 4 } }).resize(width * 2, height * 2));

const pictures: [string, () => Promise<Pixels>][] = [
  ["drawn, cells of 7, lined, 12 MP", async () => drawn(4000, 3000, 7, true)],
  ["drawn, cells of 7, bare, 12 MP", async () => drawn(4000, 3000, 7, false)],
  ["drawn, cells of 40, lined, 12 MP", async () => drawn(4000, 3000, 40, true)],
  ["photographed page, 12 MP", () => photographed("photo: page with words", 5)],
  ["photographed signs, 12 MP", () => photographed("photo: signs", 6)],
  ["photographed screen, 12 MP", () => photographed("screen: no lines", 7)],
  ["photographed page, 48 MP", async () => fourfold(await photographed("photo: page with words", 5))],
  ["photographed signs, 48 MP", async () => fourfold(await photographed("photo: signs", 6))],
  ["drawn, cells of 40, lined, 48 MP", async () => drawn(8000, 6000, 40, true)],
];

for (const [name, make] of pictures) {
  const pixels = await make();
  const times: number[] = [];
  const busy: number[] = [];
  let read = "";
  let most = 0;
  const before = process.memoryUsage().rss;
  for (let round = 0; round < Number(rounds); round++) {
    const begun = performance.now();
    const worked = process.cpuUsage();
    const { charts, problems } = readChartPicture(pixels, { onStep: () => (most = Math.max(most, process.memoryUsage().rss)) });
    times.push(performance.now() - begun);
    const { user, system } = process.cpuUsage(worked);
    busy.push((user + system) / 1000);
    read = charts.map(({ rows }) => `${rows[0]!.length} × ${rows.length}`).join(", ") || problems[0]!.got;
  }
  console.log(
    `${name.padEnd(34)} ${pixels.width} × ${pixels.height}: median ${median(times).toFixed(0)} ms, of which ${median(busy).toFixed(0)} ms at work (others take their share of the machine), ${Math.max(0, (most - before) / MEGAPIXELS).toFixed(0)} MB more than the picture's ${(pixels.rgba.length / MEGAPIXELS).toFixed(0)} MB, read ${read}`,
  );
} // prettier-ignore
