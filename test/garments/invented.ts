/** Invented garments from a seed: a chart of bands in some colours, a garment to knit it on, a shelf of yarns; nobody's pattern. */
import { seededRandom } from "../../src/base/random.ts";
import type { Project } from "../../src/document/project.ts";
import type { Lab } from "../../src/colour/lab.ts";

export interface InventedGarment {
  readonly seed: number;
  readonly colours: number;
  readonly yarns: number;
  readonly bands: number;
}

/**
 * Bands of 3 to 9 rows, each of a motif by chance, mirrored left to right, in one or two contrast colours on one of two grounds, with plain
 * rows between. Colours are spread from light to dark, so that the pattern itself shows; yarns lie near them or anywhere.
 */
export function inventedGarment({ seed, colours, yarns, bands }: InventedGarment): Project {
  const random = seededRandom(seed * 7717 + colours * 31 + yarns);
  const between = (low: number, high: number): number => low + (high - low) * random();
  const whole = (low: number, high: number): number => Math.floor(between(low, high + 1));
  const ids = "ABCDEFGHIJKLMNOP".slice(0, colours);
  // Every second colour lies on the dark side, so that neighbours in the list contrast.
  const labs = Array.from(ids, (_, index): Lab => {
    const lightness = index % 2 === 0 ? 92 - (index * 34) / colours : 18 + (index * 34) / colours;
    return [lightness, between(-18, 22), between(-22, 28)];
  });
  const rows: string[] = [];
  const named: { rows: [number, number]; name: string }[] = [];
  const width = 12;
  for (let band = 0; band < bands; band++) {
    const ground = band % 3 === 2 && colours > 2 ? 1 : 0;
    // Contrast colours lie on the other side from light to dark.
    const others = Array.from(ids, (_, index) => index).filter((index) => index % 2 !== ground % 2);
    const motif = [others[(band + seed) % others.length]!, others[(band + seed + 1) % others.length]!];
    const height = whole(3, 9);
    const from = rows.length + 1;
    const leads = Array.from({ length: height }, () => motif[random() < 0.75 ? 0 : 1]!);
    for (let row = 0; row < height; row++) {
      const half: number[] = [];
      // Two alike at most, so that no strand passes more than four stitches where halves meet: floats are not what is tried here.
      for (let at = 0; at < width / 2; at++) {
        const [last, before] = [half.at(-1), half.at(-2)];
        const figure = last === before && last !== undefined ? last === ground : random() < 0.45;
        half.push(figure ? leads[row]! : ground);
      }
      rows.push([...half, ...half.toReversed()].map((index) => ids[index]!).join(""));
    }
    named.push({ rows: [from, rows.length], name: `band ${band + 1}` });
    rows.push(ids[ground]!.repeat(width));
  }
  const rounds = rows.length;
  return {
    format: "twostrand-project",
    version: 1,
    name: `invented garment ${seed}`,
    pattern: {
      gauge: { stitches: whole(22, 34), rows: whole(24, 38) },
      colours: Array.from(ids, (id, index) => ({
        id,
        name: `colour ${id}`,
        role: index === 0 ? ("main" as const) : ("contrast" as const),
        shade: { lab: labs[index]! },
      })),
      charts: [{ id: "c1", rows: rows.toReversed(), bands: named }],
      sizes: [{ id: "M", name: "medium", chestCm: 100 }],
      sections: [
        { id: "s1", name: "body", chart: "c1", startRow: 1, rounds: { M: rounds * 2 }, stitches: { M: 240 }, on: true },
      ],
    },
    yarns: Array.from({ length: yarns }, (_, index) => {
      const near = labs[index % colours]!;
      const lab: Lab =
        random() < 0.6
          ? [
              Math.min(96, Math.max(8, near[0] + between(-9, 9))),
              near[1] + between(-12, 12),
              near[2] + between(-12, 12),
            ]
          : [between(10, 94), between(-35, 40), between(-35, 45)];
      return {
        id: `y${index + 1}`,
        name: `yarn ${index + 1}`,
        maker: "Sample Mill",
        shade: { lab, uncertainty: 3 },
        metresPer100g: 420,
        grams: index < 2 * colours ? whole(60, 200) : whole(15, 60),
        fibre: "wool",
      };
    }),
    colourways: [{ id: "w1", name: "none yet", yarns: {} }],
    swatches: [],
  } as unknown as Project;
}
