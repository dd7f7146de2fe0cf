// Draws the worked example's chart as a picture, one colour to a cell with thin lines between, as a pattern prints it:
// node scripts/example-picture.mjs. The project file is the truth; the picture is made again when it changes.
import { readFileSync } from "node:fs";
import sharp from "sharp";

const CELL = 16;
// A thin line of a mid grey stays visible between light cells and between dark ones.
const LINE = [128, 128, 128];

const project = JSON.parse(readFileSync("examples/weather-station-vest.twostrand.json", "utf8"));
const [chart] = project.pattern.charts;
const colours = new Map(project.pattern.colours.map(({ id, shade }) => [id, bytesOf(shade.hex)]));

const width = chart.rows[0].length * CELL + 1;
const height = chart.rows.length * CELL + 1;
const pixels = Buffer.alloc(width * height * 3);
for (let y = 0; y < height; y++) {
  for (let x = 0; x < width; x++) {
    const onLine = x % CELL === 0 || y % CELL === 0;
    const colour = onLine ? LINE : colours.get(chart.rows[Math.floor(y / CELL)][Math.floor(x / CELL)]);
    pixels.set(colour, (y * width + x) * 3);
  }
}
await sharp(pixels, { raw: { width, height, channels: 3 } })
  .png({ compressionLevel: 9, palette: false })
  .toFile("examples/vest-chart.png");

function bytesOf(hex) {
  return [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));
}
