/** The gallery: small pictures that show what the fabric looks like, drawn anew by every test run and compared. */
import { gridOf } from "../../src/chart/chart.ts";
import { labFromHex } from "../../src/colour/lab.ts";
import type { Cloth, Ink } from "../../src/fabric/cloth.ts";
import { renderCloth } from "../../src/fabric/render.ts";
import { seenCloth } from "../../src/fabric/seen.ts";
import type { Raster } from "../../src/raster/raster.ts";
import { deficientRaster } from "../../src/vision/deficiency.ts";

/** Name of the picture → its raster. */
export const FIGURES: Record<string, () => Raster> = {
  "cream-and-charcoal-8px": () => renderCloth(diamonds(CREAM), { pixelsPerStitch: 8, repeatsAcross: 2 }),
  "cream-and-charcoal-20px": () => renderCloth(diamonds(CREAM), { pixelsPerStitch: 20 }),
  "mustard-on-navy-12px": () => renderCloth(diamonds(NAVY), { pixelsPerStitch: 12 }),
  "mustard-on-navy-40px": () => renderCloth(diamonds(NAVY), { pixelsPerStitch: 40, rows: [4, 8] }),
  "small-2px": () => renderCloth(diamonds(CREAM), { pixelsPerStitch: 2, repeatsAcross: 8 }),
  "heather-24px": () => renderCloth(diamonds(HEATH, HEATHER), { pixelsPerStitch: 24, rows: [5, 10] }),
  "tweed-24px": () => renderCloth(diamonds(HEATH, TWEED), { pixelsPerStitch: 24, rows: [5, 10] }),
  "marl-24px": () => renderCloth(diamonds(HEATH, MARL), { pixelsPerStitch: 24, rows: [5, 10] }),
  "variegated-12px": () => renderCloth(diamonds(HEATH, VARIEGATED), { pixelsPerStitch: 12, repeatsAcross: 3 }),
  "variegated-seen-from-3m": () =>
    seenCloth(diamonds(HEATH, VARIEGATED), { distanceM: 3, lux: 500 }, { pixelsPerStitch: 10, repeatsAcross: 3 }),
  "duplicate-stitch-and-embroidery-24px": () => renderCloth(overStitched(), { pixelsPerStitch: 24 }),
  "no-stitch-16px": () => renderCloth(clothFrom(["--AA--", "-ABBA-", "ABBBBA"], CREAM), { pixelsPerStitch: 16 }),
  "seen-from-1.5m": () =>
    seenCloth(diamonds(OAT), { distanceM: 1.5, lux: 500 }, { pixelsPerStitch: 10, repeatsAcross: 2 }),
  "seen-from-6m": () => seenCloth(diamonds(OAT), { distanceM: 6, lux: 500 }, { pixelsPerStitch: 10, repeatsAcross: 2 }),
  "deutan-12px": () => deficientRaster(renderCloth(diamonds(MADDER), { pixelsPerStitch: 12 }), "deutan", 1),
};

const CREAM = { A: "#ede6d6", B: "#3a3a3a", C: "#8a8a86" };
const NAVY = { A: "#1f2a4d", B: "#c9992b", C: "#b03a3a" };
const OAT = { A: "#b9ae9a", B: "#8a7d6a", C: "#a7a7a5" };
const MADDER = { A: "#2f7a4b", B: "#b03a3a", C: "#ede6d6" };
const HEATH = { A: "#8f8a78", B: "#ede6d6", C: "#3a3a3a" };
const HEATHER: Ink["flecks"] = [
  { shade: { hex: "#7a5a3a" }, share: 0.12 },
  { shade: { hex: "#5a7a8a" }, share: 0.08 },
];
/** Specks of 4 mm on few stitches. */
const TWEED: Ink["flecks"] = [
  { shade: { hex: "#ede6d6" }, share: 0.05, lengthMm: 4 },
  { shade: { hex: "#8c3f4f" }, share: 0.04, lengthMm: 3 },
];
/** Half of the yarn is another ply. */
const MARL: Ink["flecks"] = [{ shade: { hex: "#4f4a42" }, share: 0.5, lengthMm: 5 }];
/** Two lengths of a colour of several stitches, and what they leave. */
const VARIEGATED: Ink["flecks"] = [
  { shade: { hex: "#c9b98f" }, share: 0.3, lengthMm: 120 },
  { shade: { hex: "#4f6a7a" }, share: 0.25, lengthMm: 80 },
];

const MOTIF = [
  "BABABABABABA",
  "AAAAAAAAAAAA",
  "AAAAABBAAAAA",
  "AAAABBBBAAAA",
  "AAABBAABBAAA",
  "AABBACCABBAA",
  "AAABBAABBAAA",
  "AAAABBBBAAAA",
  "AAAAABBAAAAA",
  "AAAAAAAAAAAA",
  "ACACACACACAC",
  "CACACACACACA",
];

function clothFrom(rows: string[], hexes: Record<string, string>, flecks: Ink["flecks"] = []): Cloth {
  const chart = { id: "c1", rows };
  const grid = gridOf(chart);
  const inks = grid.ids.map((id): Ink => {
    const lab = labFromHex(hexes[id]!)!;
    return {
      colour: id,
      yarn: null,
      lab,
      uncertainty: 3,
      was: lab,
      flecks: id === "A" ? flecks : [],
      over: id === "O",
    };
  });
  return { chart, grid, inks, cells: grid.cells, knitted: grid.cells, gauge: { stitches: 28, rows: 30 }, lines: [] };
}

const diamonds = (hexes: Record<string, string>, flecks: Ink["flecks"] = []): Cloth => clothFrom(MOTIF, hexes, flecks);

function overStitched(): Cloth {
  const cloth = clothFrom(["AAAAAA", "AAOAAA", "AOOOAA", "AAOAAA", "AAAAAA"], { A: "#5f8a86", O: "#ede6d6" });
  const lab = labFromHex("#8c3f4f")!;
  return {
    ...cloth,
    lines: [
      { from: [1, 1], to: [4, 1], lab },
      { from: [1, 1], to: [1, 5], lab },
    ],
  };
}
