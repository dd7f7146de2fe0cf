/** The table of all pairs against the plain model, pair by pair. */
import { describe, expect, it } from "vitest";
import { seededRandom } from "../base/random.ts";
import type { Lab } from "../colour/lab.ts";
import { stitchSizeMm } from "../garment/gauge.ts";
import { figureVisibility, gainsOf, join } from "../vision/visibility.ts";
import { pairTable } from "./pairTable.ts";
import { spectrumOf } from "./spectra.ts";
import { pieceOfMotif, sceneFor, USUAL_EYE } from "./visibility.ts";

describe("pair table", () => {
  const random = seededRandom(11);
  const labs = Array.from({ length: 14 }, (): Lab => [5 + 90 * random(), 120 * random() - 60, 120 * random() - 60]);
  const stitch = stitchSizeMm({ stitches: 28, rows: 30 });

  it.each([
    [["10"], 2],
    [["1000"], 2],
    [["00010000", "00111000", "00010000"], 2],
    [["00010000", "00121000", "00010000", "22222222"], 3],
  ])("%j", (motif, count) => {
    const spectrum = spectrumOf(pieceOfMotif(motif, count), { stitch, rows: "once" });
    const others = labs.slice(0, count);
    for (const viewing of [
      { distanceM: 0.6, lux: 50 },
      { distanceM: 1.5, lux: 500 },
      { distanceM: 4, lux: 10_000 },
    ]) {
      const table = pairTable(spectrum, { area: 1, against: 0, others }, labs, viewing);
      labs.forEach((one, k) =>
        labs.forEach((other, l) => {
          const scene = sceneFor(spectrum, [other, one, ...others.slice(2)], viewing.lux, USUAL_EYE);
          const gains = gainsOf(spectrum, viewing.distanceM * 1000, scene.field.luminance, USUAL_EYE);
          const seen = figureVisibility(spectrum, scene.field, gains, { area: 1, against: 0 }, USUAL_EYE.contrastCap);
          const V = join(seen, 0.5);
          expect(Math.abs(table[k * labs.length + l]! - V)).toBeLessThanOrEqual(1e-3 * V + 1e-6);
        }),
      );
    }
  });
});
