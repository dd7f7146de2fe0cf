/** Charts by chance, from a seed: two to five colours, tiled and alone, at all gauges, distances and lights that matter. */
import { seededRandom } from "../../src/base/random.ts";
import type { DrawnChart } from "./drawnChart.ts";
import type { Triple } from "./plainEye.ts";

export function randomCharts(count: number, seed: number): DrawnChart[] {
  const random = seededRandom(seed);
  const between = (low: number, high: number): number => low + (high - low) * random();
  const whole = (low: number, high: number): number => Math.floor(between(low, high + 1));
  const lab = (): Triple => {
    const lightness = between(12, 92);
    // Wool is less colourful the nearer it is to black and white; our choice.
    const chroma = random() * Math.min(50, 1.2 * lightness, 1.2 * (105 - lightness));
    const hue = between(0, 2 * Math.PI);
    return [lightness, chroma * Math.cos(hue), chroma * Math.sin(hue)];
  };
  return Array.from({ length: count }, (_, index) => {
    const rows = index % 2 === 0 ? "tiled" : "once";
    const colours = whole(2, 5);
    // A lone row is every third of the isolated ones.
    const height = rows === "tiled" ? whole(1, 9) : index % 3 === 0 ? 1 : whole(2, 7);
    const width = whole(Math.max(2, Math.ceil(colours / height)), 10);
    // Every colour has its stitch; the rest falls as it will, often in blocks, so that there are shapes as well as specks.
    const block = whole(1, 3);
    const seen = new Map<string, number>();
    const cells = Array.from({ length: width * height }, (_unused, at) => {
      const place = `${Math.floor((at % width) / block)} ${Math.floor(at / width / block)}`;
      if (!seen.has(place)) seen.set(place, whole(0, colours - 1));
      return seen.get(place)!;
    });
    for (let colour = 0; colour < colours; colour++) cells[(colour * 7919) % cells.length] = colour;
    if (index % 10 === 9) cells[cells.length - 1] = -1;
    const used = [...new Set(cells.filter((cell) => cell >= 0))].sort();
    return {
      width,
      height,
      cells: cells.map((cell) => (cell < 0 ? cell : used.indexOf(cell))),
      labs: used.map(lab),
      stitch: { widthMm: 100 / between(16, 40), heightMm: 100 / between(18, 48) },
      rows,
      distanceMm: 500 * 12 ** random(),
      lux: 30 * 100 ** random(),
    };
  });
}
